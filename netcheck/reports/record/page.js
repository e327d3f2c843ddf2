"use strict";
// A sentence, a line of a file and the marks of a picture that are about the same lead light up together.
for (const article of document.querySelectorAll("article")) {
  const marks = [...article.querySelectorAll("[data-mark]")];
  const tied = (about) => marks.filter((mark) =>
    mark.dataset.act === about.dataset.order ||
    (about.dataset.name && [...mark.dataset.at.split(" "), ...mark.dataset.act.split(" ")].includes(about.dataset.name)));
  for (const about of article.querySelectorAll("[data-order], [data-name]")) {
    const light = (on) => () => {
      about.classList.toggle("lit", on);
      for (const mark of tied(about)) mark.classList.toggle("lit-mark", on);
    };
    for (const name of ["mouseenter", "focus"]) about.addEventListener(name, light(true));
    for (const name of ["mouseleave", "blur"]) about.addEventListener(name, light(false));
  }
}

"""The order as it is printed of needs of every kind: what is known, what is not, what one line serves."""

from netcheck.bench.buy import Need
from netcheck.bench.buy import OrderGroup as G
from netcheck.bench.buy_sheet import buy_sheet
from netcheck.reports import SHEETS, Style
from tests.paper import circuit

NEEDS = [
    Need("C57", G.ELECTROLYTIC, "47 mfd", "40 mfd", ("33 mfd", "68 mfd"), 474.4, 450, 500, 0.0948),
    Need("C9", G.ELECTROLYTIC, "47 mfd", "47 mfd", ("68 mfd",), 380.2, None, 400, 0.0002),
    Need("C10", G.ELECTROLYTIC, "47 mfd", "", ("68 mfd",), None, 350, 350),
    Need("C11", G.ELECTROLYTIC, "10 mfd", computed=9.94, size=16, amperes=0.0004, note="V1: 40 mfd at most"),
    Need("C12", G.ELECTROLYTIC, "22 mfd", computed=182.3, was=150, size=200, bound=True),
    Need("C13", G.ELECTROLYTIC, "22 mfd", computed=800, size=None),
    Need("C14", G.ELECTROLYTIC, "33 mfd", rated="350 V"),
    Need("C15", G.ELECTROLYTIC, "33 mfd", rated="300 V"),
    Need("C16", G.ELECTROLYTIC, "33 mfd"),
    Need("C30", G.LINE, ".01 mfd", kind="X2, X1 or Y", note="the file has no class"),
    Need("C31", G.LINE, ".01 mfd", kind="Y2 or Y1"),
    Need("C40", G.CAPACITOR, ".047 mfd", "", (), 294, 600, 630, kind="film"),
    Need("C41", G.CAPACITOR, ".047 mfd", "", (), 120, 200, 250, kind="film"),
    Need("C42", G.CAPACITOR, ".047 mfd", "", (), 12, 25, 63, kind="film"),
    Need("R1", G.RESISTOR, "1k", "", ("910 ohm", "1.1k"), 2.93, 2, 3),
    Need("R2", G.RESISTOR, "1k", "", ("1.1k",), 0.004, 0.5, 2),
    Need("R3", G.RESISTOR, "1k", "", (), 0.004, None, 0.5),
    Need("D1", G.RECTIFIER, "diode", "", (), 364, None, 600, 0.0753, kind="diode"),
    Need("D2", G.RECTIFIER, "diode", "", (), 300, None, 400, 0.6, kind="diode"),
    Need("D3", G.RECTIFIER, "selenium", "", (), None, None, None, kind="selenium"),
    Need("F1", G.FUSE, "1 A slow", amperes=0.42, sizes=(0.63, 0.8)),
    Need("F2", G.FUSE, "2 A", amperes=0.5, sizes=(0.8, 0.8)),
    Need("F3", G.FUSE, "3 A", note="what the set takes is not computed"),
    Need("SP9", G.OTHER, "strip 4 lugs", kind="strip"),
]
CIRCUIT = circuit('title "Cove 2"\nstate rewired\nresistor R1 1k\n')

WIDE = """netcheck buy: a.netck, b.netck

Cove 2 (rewired)
date ____________  by ____________

! Pull the plug.

Never less than the part that goes out is rated for. Surge volts are no rating.

Electrolytics
Computed: the most that it sees, cold on a high line or in use. Ripple: the current that it has to
  carry.
    how many  value   computed  was    order     ripple    serves    for        note       spare
                                                           as well
[ ] 2         47 mfd  474 V     450 V  500 V     95 mA     68 mfd    C9, C57               _________
                                                                     (40 mfd)
[ ] 1         47 mfd  not       350 V  350 V     not       68 mfd    C10                   _________
                      known                      known
[ ] 1         10 mfd  9.9 V            16 V      little              C11        V1: 40     _________
                                                                                mfd at
                                                                                most
[ ] 1         22 mfd  182 V or  150 V  200 V     not                 C12                   _________
                      more                       known
[ ] 1         22 mfd  800 V            more      not                 C13                   _________
                                       than is   known
                                       made:
                                       two in
                                       series
[ ] 1         33 mfd  not              350 V,    not                 C14                   _________
                      known            as in     known
                                       the file
[ ] 1         33 mfd  not              300 V,    not                 C15                   _________
                      known            as in     known
                                       the file
[ ] 1         33 mfd  not              not       not                 C16                   _________
                      known            known     known

Line capacitors: class X or Y, nothing else
    how many  value    class        for  note                   spare
[ ] 1         .01 mfd  X2, X1 or Y  C30  the file has no class  __________
[ ] 1         .01 mfd  Y2 or Y1     C31                         __________

Film, mica and ceramic capacitors
Computed: direct volts alone. Signal peaks come on top; the maker of the set chose for those too.
    how many  value     kind  computed  was    order  serves as well  for       spare
[ ] 2         .047 mfd  film  294 V     600 V  630 V                  C40, C41  __________
[ ] 1         .047 mfd  film  12 V      25 V   63 V                   C42       __________

Resistors
    how many  value  twice its heat  was  order  serves as well  for     spare
[ ] 2         1k     2.9 W           2 W  3 W    1.1k            R1, R2  __________
[ ] 1         1k     little               0.5 W                  R3      __________

Rectifiers
Backwards: the inverse volts with no load, on a high line; order at least a fifth more.
    how many  value     backwards  order      mean       amperes    for  spare
[ ] 1         diode     364 V      600 V      75 mA      1 A        D1   __________
[ ] 1         diode     300 V      400 V      600 mA     1.2 A      D2   __________
[ ] 1         selenium  not known  not known  not known  not known  D3   __________

Fuses
From 1.5 to 2 times what the set takes running. A larger fuse protects less.
    how many  value     set takes  order                               for  note          spare
[ ] 1         1 A slow  0.42 A     0.63 to 0.8 A slow                  F1                 __________
[ ] 1         2 A       0.50 A     0.8 A slow                          F2                 __________
[ ] 1         3 A       not known  not known: as the maker of the set  F3   what the set  __________
                                   says                                     takes is not
                                                                            computed

The rest
    how many  value         for  spare
[ ] 1         strip 4 lugs  SP9  __________

24 parts, 21 lines to order.
"""

NARROW = """netcheck buy: a.netck

Cove 2 (rewired)
date ____________  by ____________

Never less than the part that goes out is rated for. Surge
  volts are no rating.

Electrolytics
Computed: the most that it sees, cold on a high line or in
  use. Ripple: the current that it has to carry.
    how     value   computed  was    order   ripple  serves  for     spare
    many                                           as
                                                   well
[ ] 2       47 mfd  474 V   450 V  500 V   95 mA   68 mfd  C9,     ______
                                                           C57
                                                           (40
                                                           mfd)
[ ] 1       22 mfd  800 V          more    not             C13     ______
                                   than    known
                                   is
                                   made:
                                   two in
                                   series

Rectifiers
Backwards: the inverse volts with no load, on a high line;
  order at least a fifth more.
    how     value  backwards  order  mean   amperes  for  spare
    many
[ ] 1       diode  364 V   600 V  75 mA  1 A     D1   ______

Fuses
From 1.5 to 2 times what the set takes running. A larger
  fuse protects less.
    how      value  set      order    for  note     spare
    many            takes
[ ] 1        3 A    not      not      F3   what     ________
                    known    known:        the set
                             as the        takes
                             maker         is not
                             of the        computed
                             set
                             says

5 parts, 4 lines to order.
"""


def test_each_need_is_printed_with_what_is_known_of_it() -> None:
    sheet = buy_sheet(tuple(NEEDS), CIRCUIT, ("a.netck", "b.netck"), ("Pull the plug.",))
    assert SHEETS[".txt"](sheet, Style()) == WIDE


def test_on_a_narrow_screen_no_cell_is_cut() -> None:
    few = tuple(need for need in NEEDS if need.part in {"C57", "C9", "C13", "D1", "F3"})
    assert SHEETS[".txt"](buy_sheet(few, CIRCUIT, ("a.netck",), ()), Style(width=60)) == NARROW

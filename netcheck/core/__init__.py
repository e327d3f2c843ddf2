"""The ground floor: frozen data that every room shares; standard library only."""

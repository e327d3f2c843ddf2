"""How rules are run; knows no rule by name."""

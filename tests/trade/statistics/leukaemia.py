"""The 6-MP remission data: weeks in remission, and whether it ended; E. J. Freireich et al., Blood 21 (1963) 699,
as lifelines carries it (load_leukemia)."""

_6MP = "6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+".split()
_PLACEBO = "1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23".split()


def _read(marks):
    return [float(mark.rstrip("+")) for mark in marks], [not mark.endswith("+") for mark in marks]


SIX_MP, PLACEBO = _read(_6MP), _read(_PLACEBO)

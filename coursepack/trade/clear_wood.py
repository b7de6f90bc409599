"""Strength of clear straight-grained wood, species by species, green and at 12 % moisture."""

from collections.abc import Mapping
from fractions import Fraction

from coursepack.trade.wood import Row, Table

_T53 = "Wood Handbook GTR-282, Table 5-3b"
_T55 = "Wood Handbook GTR-282, Table 5-5b"

# Specific gravity on oven-dry weight and the volume at that moisture; modulus of rupture; modulus of elasticity;
# crushing strength along the grain; bearing across it at the proportional limit; shear along it; side hardness.
_COLUMNS = {
    "specific gravity": "",
    "bending": "psi",
    "stiffness": "psi",
    "crushing": "psi",
    "bearing": "psi",
    "shear": "psi",
    "hardness": "lbf",
}

GREEN = Table(
    _COLUMNS,
    {
        "Sitka spruce": Row("0.37 5700 1.23e6 2670 280 760 350", _T53),
        "red spruce": Row("0.37 6000 1.33e6 2720 260 750 340", _T53),
        "white spruce": Row("0.33 5000 1.14e6 2350 210 640 270", _T53),
        "black spruce": Row("0.38 6100 1.38e6 2840 240 740 340", _T53),
        "Engelmann spruce": Row("0.33 4700 1.03e6 2180 200 640 260", _T53),
        "Douglas-fir": Row("0.45 7700 1.56e6 3780 380 900 500", _T53),
        "Douglas-fir (Interior West)": Row("0.46 7700 1.51e6 3870 420 940 510", _T53),
        "Douglas-fir (Interior North)": Row("0.45 7400 1.41e6 3470 360 950 420", _T53),
        "Douglas-fir (Interior South)": Row("0.43 6800 1.16e6 3110 340 950 360", _T53),
        "noble fir": Row("0.37 6200 1.38e6 3010 270 800 290", _T53),
        "grand fir": Row("0.35 5800 1.25e6 2940 270 740 360", _T53),
        "white fir": Row("0.37 5900 1.16e6 2900 280 760 340", _T53),
        "western hemlock": Row("0.42 6600 1.31e6 3360 280 860 410", _T53),
        "Port-Orford-cedar": Row("0.39 6600 1.30e6 3140 300 840 380", _T53),
        "western redcedar": Row("0.31 5200 0.94e6 2770 240 770 260", _T53),
        "yellow-cedar": Row("0.42 6400 1.14e6 3050 350 840 440", _T53),
        "eastern white pine": Row("0.34 4900 0.99e6 2440 220 680 290", _T53),
        "western white pine": Row("0.35 4700 1.19e6 2430 190 680 260", _T53),
        "sugar pine": Row("0.34 4900 1.03e6 2460 210 720 270", _T53),
        "longleaf pine": Row("0.54 8500 1.59e6 4320 480 1040 590", _T53),
        "western larch": Row("0.48 7700 1.46e6 3760 400 870 510", _T53),
        "yellow-poplar": Row("0.40 6000 1.22e6 2660 270 790 440", _T53),
        "white ash": Row("0.55 9500 1.44e6 3990 670 1350 960", _T53),
        "yellow birch": Row("0.55 8300 1.50e6 3380 430 1110 780", _T53),
        "sweet birch": Row("0.60 9400 1.65e6 3740 470 1240 970", _T53),
        "sugar maple": Row("0.56 9400 1.55e6 4020 640 1460 970", _T53),
        "basswood": Row("0.32 5000 1.04e6 2220 170 600 250", _T53),
        "black cherry": Row("0.47 8000 1.31e6 3540 360 1130 660", _T53),
        "black walnut": Row("0.51 9500 1.42e6 4300 490 1220 900", _T53),
        "American beech": Row("0.56 8600 1.38e6 3550 540 1290 850", _T53),
        "white oak": Row("0.60 8300 1.25e6 3560 670 1250 1060", _T53),
        "northern red oak": Row("0.56 8300 1.35e6 3440 610 1210 1000", _T53),
        "rock elm": Row("0.57 9500 1.19e6 3780 610 1270 940", _T53),
        "sweetgum": Row("0.46 7100 1.20e6 3040 370 990 600", _T53),
        "mahogany": Row("0.45 9000 1.34e6 4340 - 1240 740", _T55),
        "African mahogany": Row("0.42 7400 1.15e6 3730 - 931 640", _T55),
    },
)

DRY = Table(
    _COLUMNS,
    {
        "Sitka spruce": Row("0.40 10200 1.57e6 5610 580 1150 510", _T53),
        "red spruce": Row("0.40 10800 1.66e6 5540 550 1290 530", _T53),
        "white spruce": Row("0.36 9400 1.43e6 5180 430 970 410", _T53),
        "black spruce": Row("0.42 10800 1.61e6 5960 550 1230 530", _T53),
        "Engelmann spruce": Row("0.35 9300 1.30e6 4480 410 1200 390", _T53),
        "Douglas-fir": Row("0.48 12400 1.95e6 7230 800 1130 710", _T53),
        "Douglas-fir (Interior West)": Row("0.50 12600 1.83e6 7430 760 1290 660", _T53),
        "Douglas-fir (Interior North)": Row("0.48 13100 1.79e6 6900 770 1400 600", _T53),
        "Douglas-fir (Interior South)": Row("0.46 11900 1.49e6 6230 740 1510 510", _T53),
        "noble fir": Row("0.39 10700 1.72e6 6100 520 1050 410", _T53),
        "grand fir": Row("0.37 8900 1.57e6 5290 500 900 490", _T53),
        "white fir": Row("0.39 9800 1.50e6 5800 530 1100 480", _T53),
        "western hemlock": Row("0.45 11300 1.63e6 7200 550 1290 540", _T53),
        "Port-Orford-cedar": Row("0.43 12700 1.70e6 6250 720 1370 630", _T53),
        "western redcedar": Row("0.32 7500 1.11e6 4560 460 990 350", _T53),
        "yellow-cedar": Row("0.44 11100 1.42e6 6310 620 1130 580", _T53),
        "eastern white pine": Row("0.35 8600 1.24e6 4800 440 900 380", _T53),
        "western white pine": Row("0.38 9700 1.46e6 5040 470 1040 420", _T53),
        "sugar pine": Row("0.36 8200 1.19e6 4460 500 1130 380", _T53),
        "longleaf pine": Row("0.59 14500 1.98e6 8470 960 1510 870", _T53),
        "western larch": Row("0.52 13000 1.87e6 7620 930 1360 830", _T53),
        "yellow-poplar": Row("0.42 10100 1.58e6 5540 500 1190 540", _T53),
        "white ash": Row("0.60 15400 1.74e6 7410 1160 1910 1320", _T53),
        "yellow birch": Row("0.62 16600 2.01e6 8170 970 1880 1260", _T53),
        "sweet birch": Row("0.65 16900 2.17e6 8540 1080 2240 1470", _T53),
        "sugar maple": Row("0.63 15800 1.83e6 7830 1470 2330 1450", _T53),
        "basswood": Row("0.37 8700 1.46e6 4730 370 990 410", _T53),
        "black cherry": Row("0.50 12300 1.49e6 7110 690 1700 950", _T53),
        "black walnut": Row("0.55 14600 1.68e6 7580 1010 1370 1010", _T53),
        "American beech": Row("0.64 14900 1.72e6 7300 1010 2010 1300", _T53),
        "white oak": Row("0.68 15200 1.78e6 7440 1070 2000 1360", _T53),
        "northern red oak": Row("0.63 14300 1.82e6 6760 1010 1780 1290", _T53),
        "rock elm": Row("0.63 14800 1.54e6 7050 1230 1920 1320", _T53),
        "sweetgum": Row("0.52 12500 1.64e6 6320 620 1600 850", _T53),
        "mahogany": Row("- 11500 1.50e6 6780 - 1230 800", _T55),
        "African mahogany": Row("- 10700 1.40e6 6460 - 1500 830", _T55),
    },
)

STRENGTH: Mapping[str, Table] = {"green": GREEN, "dry": DRY}

# Moisture, in percent, at which drying wood begins to gain strength. Wood Handbook GTR-282, Table 5-13; 25 for all
# species that it does not name.
MEETING_POINTS: Mapping[str, Fraction] = {
    "white ash": Fraction(24),
    "yellow birch": Fraction(27),
    "Douglas-fir": Fraction(24),
    "Douglas-fir (Interior West)": Fraction(24),
    "Douglas-fir (Interior North)": Fraction(24),
    "Douglas-fir (Interior South)": Fraction(24),
    "western hemlock": Fraction(28),
    "western larch": Fraction(28),
    "longleaf pine": Fraction(21),
    "red spruce": Fraction(27),
    "Sitka spruce": Fraction(27),
}
OTHER_MEETING_POINT = Fraction(25)

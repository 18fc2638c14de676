"""Replacements of valve seats of 41 diesel engines: W. Nelson, Technometrics 37 (1995) 147, as public manuals of
statistics packages list them; the end days of 420, 421 and 422 from memory. id, days of replacement, last the end."""

_LISTED = (
    "251 761;252 759;327 98 667;328 326 653 653 667;329 665;330 84 667;331 87 663;389 646 653;390 92 653;391 651;"
    "392 258 328 377 621 650;393 61 539 648;394 254 276 298 640 644;395 76 538 642;396 635 641;397 349 404 561 649;"
    "398 631;399 596;400 120 479 614;401 323 449 582;402 139 139 589;403 593;404 573 589;405 165 408 604 606;"
    "406 249 594;407 344 497 613;408 265 586 595;409 166 206 348 389;410 601;411 410 581 601;412 611;413 608;414 587;"
    "415 367 603;416 202 563 570 585;417 587;418 578;419 578;420 586;421 585;422 582"
)
_ROWS = [[float(number) for number in row.split()[1:]] for row in _LISTED.split(";")]
ENDS = [row[-1] for row in _ROWS]
UNITS = [unit for unit, row in enumerate(_ROWS) for _ in row[:-1]]
DAYS = [day for row in _ROWS for day in row[:-1]]

package gylewarden.crooked.units;

import gylewarden.crooked.control.ReadsTheClock;

record LooksUpstairs(ReadsTheClock neighbour) {}

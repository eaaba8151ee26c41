package gylewarden.crooked.schedule;

import gylewarden.crooked.control.ReadsTheClock;

record AsksALaterNeighbour(ReadsTheClock neighbour) {}

package gylewarden.plant;

import gylewarden.units.Temperature;

/** What goes on around the chamber: the room, the yeast, the door. May remember what it said, so it serves one run. */
@FunctionalInterface
public interface Disturbances {
    /**
     * @param seconds after the start of the run; never less than in the call before
     * @param beer its true mean temperature now, which yeast minds
     */
    Surroundings at(double seconds, Temperature beer);
}

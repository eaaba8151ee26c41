package gylewarden.app.station;

import gylewarden.chamber.Answer;
import gylewarden.web.House.WallClock;

/** Where people vouch for the board's clock. */
public interface TimeDesk {
    WallClock clock();

    /** A person says that the wall clock is right as it is. */
    Answer isRight(String actor);
}

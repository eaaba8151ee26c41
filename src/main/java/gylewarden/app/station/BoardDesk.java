package gylewarden.app.station;

import gylewarden.chamber.Answer;
import gylewarden.web.House.WallClock;

/** What people say about the board itself: its clock, and all its relays. */
public interface BoardDesk {
    WallClock clock();

    /** A person says that the wall clock is right as it is. */
    Answer clockIsRight(String actor);

    /** Whether a person has switched every relay off; they stay so, over a restart too. */
    boolean relaysOff();

    /** A person switches every relay off, which is obeyed even if it is not saved; or ends that. */
    Answer switchOff(boolean off, String actor);
}

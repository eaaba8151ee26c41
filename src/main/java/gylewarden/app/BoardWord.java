package gylewarden.app;

import gylewarden.app.station.BoardDesk;
import gylewarden.app.station.Station;
import gylewarden.chamber.Answer;
import gylewarden.schedule.ClockReading;
import gylewarden.web.House.WallClock;
import java.io.IOException;
import java.util.Optional;

/**
 * A person's word about the board: its clock, and all its relays. What is switched off is noted in the data folder as the
 * command {@code relays-off} does it; {@link Latches} does that, and knows what is in force whether or not it can be read.
 */
record BoardWord(BoardClock board, Latches latches, Station station) implements BoardDesk {
    @Override
    public WallClock clock() {
        ClockReading now = board.get();
        return new WallClock(
                now.wall(), now.trusted(), board.voucher().words(), now.wall().minus(now.sinceBoot()));
    }

    @Override
    public Answer clockIsRight(String actor) {
        return board.confirm()
                .fold(
                        done -> {
                            station.told("ClockConfirmed", "The board's time is right.", actor);
                            return done;
                        },
                        refused -> refused);
    }

    @Override
    public boolean relaysOff() {
        return latches.relaysOff();
    }

    @Override
    public Answer switchOff(boolean off, String actor) {
        return off ? switchOff(actor) : resume(actor);
    }

    /** Obeyed even where it can't be noted: off is the safe side. */
    private Answer switchOff(String actor) {
        Optional<String> unsaved = latches.switchOff();
        station.told(
                "RelaysOff",
                "Every relay is switched off, until somebody ends it. That is not isolation: pull the plug before"
                        + " you touch wires."
                        + unsaved.map(why -> " It holds only until a restart, for it is not noted: " + why)
                                .orElse(""),
                actor);
        return new Answer.Done(Optional.empty(), unsaved);
    }

    private Answer resume(String actor) {
        try {
            latches.resume();
        } catch (IOException e) {
            return Answer.Refused.of(
                    Answer.Why.NOT_NOW,
                    "",
                    "This could not be noted in the data folder, so what is off stays off: " + e.getMessage()
                            + ". Look at that disk, then end it again.");
        }
        station.told("RelaysResumed", "Relays may be energised again.", actor);
        return new Answer.Done(Optional.empty(), Optional.empty());
    }
}

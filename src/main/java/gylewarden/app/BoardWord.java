package gylewarden.app;

import gylewarden.app.station.BoardDesk;
import gylewarden.app.station.Station;
import gylewarden.chamber.Answer;
import gylewarden.schedule.ClockReading;
import gylewarden.store.LatchFolder;
import gylewarden.web.House.WallClock;
import java.io.IOException;
import java.util.Optional;

/**
 * A person's word about the board: its clock, and all its relays. What is switched off is noted in the data folder as the
 * command {@code relays-off} does it; {@link Latches} carries it to the chambers.
 */
record BoardWord(BoardClock board, LatchFolder folder, Station station) implements BoardDesk {
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
        try {
            return folder.read().relaysOff();
        } catch (IOException e) {
            return false; // told by the one who carries the latches; the reason of each chamber still says it
        }
    }

    @Override
    public Answer switchOff(boolean off, String actor) {
        try {
            if (off) folder.askRelaysOff();
            else folder.resume();
        } catch (IOException e) {
            return Answer.Refused.of(
                    Answer.Why.NOT_NOW,
                    "",
                    "This could not be noted in " + folder.data() + ": " + e.getMessage()
                            + ". Nothing is changed. Pull the plugs if everything has to be off.");
        }
        station.told(
                off ? "RelaysOff" : "RelaysResumed",
                off
                        ? "Every relay is switched off, until somebody ends it. That is not isolation: pull the plug before"
                                + " you touch wires."
                        : "Relays may be energised again.",
                actor);
        return new Answer.Done(Optional.empty(), Optional.empty());
    }
}

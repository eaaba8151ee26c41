package gylewarden.app;

import gylewarden.app.station.TimeDesk;
import gylewarden.chamber.Answer;
import gylewarden.schedule.ClockReading;
import gylewarden.web.House.WallClock;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The board's clock as the page sees it. */
record BoardTime(BoardClock board) implements TimeDesk {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    @Override
    public WallClock clock() {
        ClockReading now = board.get();
        return new WallClock(
                now.wall(), now.trusted(), board.voucher().words(), now.wall().minus(now.sinceBoot()));
    }

    @Override
    public Answer isRight(String actor) {
        Answer answer = board.confirm();
        return answer.fold(
                done -> {
                    LOG.info("{} has confirmed the board's time.", actor);
                    return done;
                },
                refused -> refused);
    }
}

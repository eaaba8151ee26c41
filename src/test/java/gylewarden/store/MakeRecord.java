package gylewarden.store;

import gylewarden.batch.Batch;
import gylewarden.journal.Minute;
import gylewarden.schedule.ClockReading;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.LongStream;

/**
 * Makes a record that holds some of everything, by the daemon's own code. Run once for each version of the schema, when that is
 * new; the file is kept as {@code src/test/resources/records/record-VERSION.db}, and every later version has to read it.
 */
final class MakeRecord {
    private MakeRecord() {}

    static final Instant BEGAN = Instant.parse("2026-03-01T10:20:30Z");
    static final int MINUTES = 30;

    /** @param arguments an empty folder */
    public static void main(String[] arguments) throws IOException {
        Path folder = Path.of(arguments[0]);
        Files.createDirectories(folder);
        var board = new FakeBoard(BEGAN, true);
        try (var database = new Database(folder, () -> board.get().wall())) {
            var recorder = new Recorder(database, board, event -> {});
            fill(recorder, board);
            if (!recorder.state().isSound() || !recorder.waiting().isEmpty())
                throw new IOException(recorder.state().sentence());
        }
        Files.move(folder.resolve(Database.FILE), folder.resolve("record-" + Schema.VERSION + ".db"));
    }

    static void fill(Recorder recorder, FakeBoard board) {
        Batch ended = Asked.batch(1, board.get());
        recorder.add(Asked.schedule(ended, true, board.get()));
        recorder.add(Asked.ended(ended, board.get()));
        Batch planned = Asked.batch(2, board.get());
        recorder.add(Asked.schedule(planned, true, board.get()));
        recorder.add(Asked.schedule(planned.pitched(board.get().wall()), true, board.get()));
        recorder.add(Asked.target("cellar", 4, 12.5, board.get()));
        recorder.add(Asked.note(planned, "smells of pears", board.get()));
        recorder.add(new Setting("fahrenheit", "true", 2));
        for (int i = 0; i < MINUTES; i++) {
            recorder.add(minute(i));
            recorder.add(board.event("garage", "Cooling energised at {18.4" + i % 10 + "0C}."));
            board.pass(Duration.ofMinutes(1));
            recorder.step();
        }
        mail(recorder);
        var undated = new FakeBoard(Instant.parse("1970-01-01T00:01:00Z"), false);
        recorder.add(undated.event("cellar", "Nobody knows when."));
        recorder.flush();
        recorder.flush();
    }

    /** Since version 2: an alarm that is over and one that lasts; letters that wait, were tried, have gone out, were given up. */
    private static void mail(Recorder recorder) {
        ClockReading at = new FakeBoard(BEGAN, true).get();
        recorder.add(
                at,
                List.of(MailRows.over(1, BEGAN), MailRows.raised(2, BEGAN)),
                LongStream.rangeClosed(1, 4)
                        .mapToObj(number -> MailRows.letter(number, 2, "mail", BEGAN))
                        .toList(),
                List.of());
        recorder.settle(MailRows.letterId(1), MailRows.tried(1, BEGAN));
        recorder.settle(MailRows.letterId(1), new Fate.Sent(BEGAN.plusSeconds(60)));
        recorder.settle(MailRows.letterId(2), new Fate.GivenUp(BEGAN.plusSeconds(90), "Two days are over."));
        recorder.settle(MailRows.letterId(3), MailRows.tried(2, BEGAN));
    }

    static Minute minute(int number) {
        long began = BEGAN.getEpochSecond() / 60 + number;
        Minute plain = MinuteRows.ordinary(
                "garage",
                began,
                Optional.of(Asked.batch(2, MinuteRows.clock(began, true)).id()));
        return new Minute(
                plain.chamber(),
                plain.began(),
                plain.batch(),
                plain.seen(),
                plain.setpoint(),
                plain.beer(),
                number % 3 == 0 ? Optional.empty() : plain.secondBeer(),
                plain.air(),
                plain.room(),
                List.of(plain.air(), Optional.empty()),
                plain.cooling(),
                plain.heating());
    }
}

package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import gylewarden.journal.MinuteCsv;
import gylewarden.store.RecordFailed;
import gylewarden.store.RecordFixture;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ExportCommandTest {
    @TempDir
    private Path folder;

    private Path config;
    private Path out;

    @BeforeEach
    void prepare() throws IOException {
        config = Commands.config(folder);
        out = folder.resolve("batch.csv");
    }

    private Commands.Outcome export(String batch) {
        return Commands.run("export", "--config", config.toString(), "--batch", batch, "--out", out.toString());
    }

    @Test
    void a_batch_is_written_while_the_record_is_open_elsewhere() throws IOException, RecordFailed {
        try (var record = new RecordFixture(Commands.data(folder)).batch(90)) {
            Commands.Outcome outcome = export(RecordFixture.BATCH.toString());
            assertEquals("", outcome.err());
            assertEquals(0, outcome.status());
            assertEquals("90 minutes of batch " + RecordFixture.BATCH + " are in " + out + ".\n", outcome.out());
            var csv = new MinuteCsv(0);
            var expected = new StringBuilder(csv.header());
            for (int i = 0; i < 90; i++) expected.append(csv.line(RecordFixture.minute(i)));
            assertEquals(expected.toString(), Files.readString(out));

            record.more(90, 100);
            outcome = export(RecordFixture.BATCH.toString());
            assertEquals(
                    "100 minutes of batch " + RecordFixture.BATCH + " are in " + out
                            + ", which replaces the file of that name.\n",
                    outcome.out());
            assertEquals(101, Files.readAllLines(out).size());
        }
        try (Stream<Path> files = Files.list(folder)) {
            assertFalse(files.anyMatch(file -> file.toString().endsWith(".unfinished")));
        }
    }

    @Test
    void a_batch_that_is_not_there_is_a_mistake_and_the_batches_are_listed() throws RecordFailed {
        new RecordFixture(Commands.data(folder)).batch(1).close();
        for (String id : new String[] {"harvest", "3d0f1c52-7a44-4c19-9d2e-0a6a1b7c8d91"}) {
            Commands.Outcome outcome = export(id);
            assertEquals(2, outcome.status());
            assertEquals(
                    "--batch " + id + ": there is no such batch in "
                            + Commands.data(folder).resolve("gylewarden.db")
                            + "; there are:\n" + RecordFixture.BATCH + "  Harvest ale\n"
                            + "How to write it: gylewarden export --help\n",
                    outcome.err());
        }
        assertFalse(Files.exists(out));
    }

    @Test
    void without_a_record_nothing_is_exported() {
        Commands.Outcome outcome = export(RecordFixture.BATCH.toString());
        assertEquals(1, outcome.status());
        assertEquals(
                "Nothing was exported. There is no record: "
                        + Commands.data(folder).resolve("gylewarden.db") + " is not there.\n",
                outcome.err());
    }

    @Test
    void a_place_that_cannot_be_written_is_named() throws RecordFailed {
        new RecordFixture(Commands.data(folder)).batch(1).close();
        out = folder.resolve("nowhere/batch.csv");
        Commands.Outcome outcome = export(RecordFixture.BATCH.toString());
        assertEquals(1, outcome.status());
        assertEquals(
                "Nothing was exported: " + out + " could not be written: the folder " + out.getParent()
                        + " is not there\n",
                outcome.err());
    }
}

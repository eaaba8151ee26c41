package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.store.InstanceLock;
import gylewarden.store.RecordFailed;
import gylewarden.store.RecordFixture;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class BackupAndRestoreTest {
    private static final String PLAN = "{\"what the chamber is asked to do\": \"20 °C\"}";

    @TempDir
    private Path folder;

    private Path config;
    private Path data;
    private Path copy;

    @BeforeEach
    void prepare() throws IOException {
        config = Commands.config(folder);
        data = Commands.data(folder);
        copy = folder.resolve("copy.db");
    }

    private Commands.Outcome backup() {
        return Commands.run("backup", "--config", config.toString(), "--to", copy.toString());
    }

    private Commands.Outcome restore() {
        return Commands.run("restore", "--config", config.toString(), "--from", copy.toString());
    }

    private int exported() throws IOException {
        Path out = folder.resolve("out.csv");
        String batch = RecordFixture.BATCH.toString();
        var outcome = Commands.run("export", "--config", config.toString(), "--batch", batch, "--out", out.toString());
        assertEquals("", outcome.err());
        return Files.readAllLines(out).size() - 1;
    }

    private List<String> filesOf(Path where) throws IOException {
        try (Stream<Path> files = Files.list(where)) {
            return files.map(file -> file.getFileName().toString()).sorted().toList();
        }
    }

    @Test
    void a_copy_made_beside_the_daemon_brings_back_the_record_and_what_the_chambers_are_asked()
            throws IOException, RecordFailed, InstanceLock.Held {
        Path plan = Files.writeString(data.resolve("chamber-garage.json"), PLAN);
        InstanceLock daemon = InstanceLock.take(data);
        try (var record = new RecordFixture(data).batch(500)) {
            Commands.Outcome made = backup();
            assertEquals("", made.err());
            assertEquals(0, made.status());
            assertEquals(
                    copy + " holds the record of " + data + ": batches 1, size " + (Files.size(copy) + 1023) / 1024
                            + " KiB. It was read back and is whole.\nThe config is not in it: copy " + config
                            + " too.\n",
                    made.out());
            record.more(500, 700);

            Commands.Outcome refused = restore();
            assertEquals(1, refused.status());
            assertTrue(
                    refused.err()
                            .matches("Nothing was restored: the data folder \\S+ is in use by process \\d+\\."
                                    + " Stop the daemon first \\(systemctl stop gylewarden\\)\\.\n"),
                    refused.err());
        } finally {
            daemon.close();
        }
        assertEquals(700, exported());
        Files.writeString(plan, "something later");

        Commands.Outcome done = restore();
        assertEquals("", done.err());
        assertEquals(0, done.status());
        assertEquals(500, exported());
        assertEquals(PLAN, Files.readString(plan));
        String date = done.out().replaceAll("(?s).*gylewarden\\.db\\.replaced-(\\S+Z)\\s.*", "$1");
        assertEquals(
                "The record in " + data + " is that of " + copy + ": batches 1.\n"
                        + "So is what the chambers are asked to do: chamber-garage.json.\n"
                        + "What was there before is now " + plan + ".replaced-" + date + "\n"
                        + "What was there before is now " + data + "/gylewarden.db.replaced-" + date + "\n"
                        + "Start the daemon again (systemctl start gylewarden), and look whether each batch is where it"
                        + " should be.\n",
                withoutParts(done.out()));
        assertEquals("something later", Files.readString(Path.of(plan + ".replaced-" + date)));
        assertFalse(filesOf(data).stream().anyMatch(name -> name.contains("unfinished")), filesOf(data) + "");

        // What was set aside is whole: it can be restored in its turn.
        copy = data.resolve("gylewarden.db.replaced-" + date);
        assertEquals(0, restore().status());
        assertEquals(700, exported());
    }

    /** Whether a closed database has left a log behind is its own matter. */
    private static String withoutParts(String out) {
        return out.replaceAll("What was there before is now \\S+-(wal|shm)\n", "");
    }

    @Test
    void a_restored_record_is_the_record_and_nothing_more() throws IOException, RecordFailed {
        new RecordFixture(data).batch(10).close();
        backup();
        restore();
        backupAgain();
        try (var record = new RecordFixture(data)) {
            assertEquals(List.of(), record.tablesNotOfTheSchema());
        }
    }

    private void backupAgain() {
        copy = folder.resolve("second.db");
        assertEquals(0, backup().status());
    }

    @Test
    void a_new_card_gets_all_of_it() throws IOException, RecordFailed {
        Files.writeString(data.resolve("chamber-garage.json"), PLAN);
        new RecordFixture(data).batch(10).close();
        backup();
        Path card = Files.createDirectories(folder.resolve("card"));
        Path moved = Files.copy(config, card.resolve("gylewarden.toml"));
        config = moved;
        data = card.resolve("data");
        assertEquals(0, restore().status());
        assertEquals(List.of("chamber-garage.json", "daemon.lock", "gylewarden.db"), filesOf(data));
        assertEquals(PLAN, Files.readString(data.resolve("chamber-garage.json")));
    }

    @Test
    void a_file_that_is_there_is_never_replaced_by_a_backup() throws IOException, RecordFailed {
        new RecordFixture(data).batch(1).close();
        Files.writeString(copy, "the only copy of something");
        Commands.Outcome outcome = backup();
        assertEquals(1, outcome.status());
        assertEquals(
                "Nothing was backed up: " + copy
                        + " is there already and is left as it is. Name another file, or move it away.\n",
                outcome.err());
        assertEquals("the only copy of something", Files.readString(copy));
    }

    @Test
    void without_a_record_or_a_folder_to_write_to_nothing_is_backed_up() throws RecordFailed {
        Commands.Outcome nothing = backup();
        assertEquals(1, nothing.status());
        assertEquals(
                "Nothing was backed up. There is no record: " + data.resolve("gylewarden.db") + " is not there.\n",
                nothing.err());
        new RecordFixture(data).batch(1).close();
        copy = folder.resolve("stick/copy.db");
        Commands.Outcome nowhere = backup();
        assertEquals(1, nowhere.status());
        assertEquals(
                "Nothing was backed up: " + copy + " could not be written: the folder " + copy.getParent()
                        + " is not there\n",
                nowhere.err());
    }

    @Test
    void a_copy_that_is_damaged_foreign_newer_or_missing_is_refused_and_nothing_is_touched()
            throws IOException, RecordFailed {
        new RecordFixture(data).batch(3_000).close();
        byte[] before = Files.readAllBytes(data.resolve("gylewarden.db"));
        backup();
        byte[] good = Files.readAllBytes(copy);

        Files.delete(copy);
        assertRefused("There is no record: " + copy + " is not there.");
        Files.writeString(copy, "a letter to the brewer ".repeat(50));
        assertRefused(copy + " is damaged: ");
        Files.write(copy, good);
        overwrite(copy, good.length / 2);
        assertRefused(copy + " is damaged: ");
        Files.write(copy, good);
        header(copy, 60, 99); // user_version, by the file format of SQLite, section 1.3
        assertRefused(
                copy + " was written by a newer version (schema 99, this one knows 2 at most) and is left untouched:"
                        + " install that version again, or move the file away.");
        Files.write(copy, good);
        header(copy, 68, 1); // application_id
        assertRefused(copy + " is no record of this program.");

        assertArrayEquals(before, Files.readAllBytes(data.resolve("gylewarden.db")));
        assertEquals(
                List.of(),
                filesOf(data).stream().filter(name -> name.contains("replaced")).toList());
    }

    private void assertRefused(String why) {
        Commands.Outcome outcome = restore();
        assertEquals(2, outcome.status(), outcome.err());
        assertTrue(outcome.err().startsWith("Nothing was restored, and nothing was touched. " + why), outcome.err());
    }

    private static void header(Path file, int at, int value) throws IOException {
        try (var random = new RandomAccessFile(file.toFile(), "rw")) {
            random.seek(at);
            random.writeInt(value);
        }
    }

    private static void overwrite(Path file, int at) throws IOException {
        try (var random = new RandomAccessFile(file.toFile(), "rw")) {
            random.seek(at);
            random.write(new byte[5_000]);
        }
    }
}

package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gylewarden.app.KernelSync.Said;
import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class CheckClockTest {
    private static final Instant EVENING = Instant.parse("2026-03-07T18:00:00.123Z");
    private static final Instant FIRST_BOOT = Instant.parse("1970-01-01T00:01:00Z");

    @TempDir
    Path folder;

    private Config config(boolean battery) throws Exception {
        String example = Files.readString(Path.of("config", "gylewarden.toml"));
        return ConfigFile.read(
                Files.writeString(folder.resolve("gylewarden.toml"), example + "[clock]\nbattery = " + battery + "\n"));
    }

    @Test
    void check_says_what_the_clock_says_and_why_it_is_trusted_or_not() throws Exception {
        Config plain = config(false);
        assertEquals(
                "says 2026-03-07T18:00:00Z, trusted because the kernel says that it is synchronised",
                CheckCommand.clock(plain, Said.SYNCHRONISED, EVENING));
        assertEquals(
                "says 2026-03-07T18:00:00Z, not trusted until the kernel says that it is synchronised, or a person"
                        + " confirms it",
                CheckCommand.clock(plain, Said.NOT_SYNCHRONISED, EVENING));
        assertEquals(
                "says 2026-03-07T18:00:00Z, not trusted until a person confirms it: timedatectl does not answer here. If"
                        + " it has a battery, set [clock] battery = true",
                CheckCommand.clock(plain, Said.NOBODY_KNOWS, EVENING));
        assertEquals(
                "says 1970-01-01T00:01:00Z, which can't be", CheckCommand.clock(plain, Said.SYNCHRONISED, FIRST_BOOT));
        Config battery = config(true);
        assertEquals(
                "says 2026-03-07T18:00:00Z, trusted because the config says that it has a battery",
                CheckCommand.clock(battery, Said.NOBODY_KNOWS, EVENING));
        assertEquals(
                "says 1970-01-01T00:01:00Z, which can't be: its battery may be empty, though the config trusts it",
                CheckCommand.clock(battery, Said.NOBODY_KNOWS, FIRST_BOOT));
    }
}

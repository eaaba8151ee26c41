package gylewarden.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** What a stranger does first must work as it is written. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class ReadmeTest {
    @Test
    void two_commands_do_all_the_set_up() throws IOException {
        List<String> commands = Files.readAllLines(Path.of("README.md")).stream()
                .filter(line -> line.startsWith("apt-get install"))
                .toList();
        assertEquals(
                List.of(
                        "apt-get install -y default-jdk-headless maven && mvn -B -q package -DskipTests"
                                + " && java -jar target/gylewarden.jar demo",
                        "apt-get install -y default-jdk-headless maven shellcheck busybox systemd chromium chromium-driver mosquitto python3-prometheus-client && mvn -B verify"),
                commands);
    }

    @Test
    void the_dangers_come_before_the_commands() throws IOException {
        String page = Files.readString(Path.of("README.md"));
        int dangers = page.indexOf("(SAFETY.md)");
        assertTrue(
                dangers > 0 && dangers < page.indexOf("apt-get"), "SAFETY.md is to be linked before the first command");
    }

    /** {@code .ci/run} takes the test command out of the page; exactly one line may match what it looks for. */
    @Test
    void the_build_machine_runs_the_commands_of_this_page() throws IOException {
        String script = Files.readString(Path.of(".ci", "run"));
        assertTrue(
                script.contains("grep '^apt-get install .*mvn .* verify' README.md"), "no longer read from the page");
        long matching = Files.readAllLines(Path.of("README.md")).stream()
                .filter(line -> line.matches("^apt-get install .*mvn .* verify.*"))
                .count();
        assertEquals(1, matching);
    }
}

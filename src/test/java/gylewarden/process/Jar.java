package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The jar that the build has made, and other programs, run as processes. */
final class Jar {
    private static final Path UNIT = Path.of("systemd", "gylewarden.service");
    private static final Path FLAGS = Path.of("systemd", "java-flags");

    private Jar() {}

    /** How a process ended and what it said. */
    record Outcome(int status, String out, String err) {}

    /** The command line of the jar with the flags of the service, so that these are tested too. */
    static List<String> command(String... arguments) throws IOException {
        Path jar = Path.of(System.getProperty("gylewarden.jar", "target/gylewarden.jar"))
                .toAbsolutePath();
        assertTrue(Files.exists(jar), () -> "there is no " + jar + ": mvn package makes it");
        // A shell that started the build in the background has made it deaf to SIGINT, and a child would inherit that.
        List<String> command = new ArrayList<>(List.of("env", "--default-signal=INT,TERM,HUP"));
        command.add(ProcessHandle.current().info().command().orElseThrow());
        command.addAll(flags());
        command.addAll(List.of("-jar", jar.toString()));
        command.addAll(List.of(arguments));
        return command;
    }

    /** Without those that name files of an installation: here are none. */
    private static List<String> flags() throws IOException {
        return Files.readAllLines(FLAGS).stream()
                .filter(line -> line.startsWith("-") && !line.contains("=/"))
                .toList();
    }

    /** The words of a line of the service unit. */
    static List<String> unitLine(String key) throws IOException {
        String line = Files.readAllLines(UNIT).stream()
                .filter(each -> each.startsWith(key + "="))
                .findFirst()
                .orElseThrow();
        return List.of(line.substring(key.length() + 1).split(" ", -1));
    }

    /** Runs the jar to its end; with no standard input. */
    static Outcome run(Path folder, String... arguments) throws IOException, InterruptedException {
        return end(folder, command(arguments));
    }

    /** Runs a program to its end in this folder. */
    static Outcome end(Path folder, List<String> command) throws IOException, InterruptedException {
        Path out = Files.createTempFile(folder, "command-", ".out");
        Path err = Files.createTempFile(folder, "command-", ".err");
        Process process = new ProcessBuilder(command)
                .redirectInput(ProcessBuilder.Redirect.from(Path.of("/dev/null").toFile()))
                .redirectOutput(out.toFile())
                .redirectError(err.toFile())
                .start();
        boolean ended = process.waitFor(Await.LONG.toSeconds(), TimeUnit.SECONDS);
        if (!ended) process.destroyForcibly();
        String said = Files.readString(out);
        String complained = Files.readString(err);
        assertTrue(ended, () -> "it hangs: " + command + "\n" + said + complained);
        return new Outcome(process.exitValue(), said, complained);
    }

    /** Runs a tool that has to succeed. */
    static void tool(Path folder, String... command) throws IOException, InterruptedException {
        Outcome outcome = end(folder, List.of(command));
        assertTrue(outcome.status() == 0, () -> List.of(command) + " failed: " + outcome);
    }
}

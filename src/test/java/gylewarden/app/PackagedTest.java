package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import gylewarden.app.config.Cautions;
import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What the package brings beside the jar. That it can be installed is shown by {@code src/deb/try.sh}, on a Debian. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@Timeout(60)
class PackagedTest {
    private static final Path DEB = Path.of("src", "deb").toAbsolutePath();
    private static final Path SYSTEMD = Path.of("systemd").toAbsolutePath();
    private static final String JAVA = "/usr/bin/java @/usr/lib/gylewarden/java-flags ";
    private static final String CONFIG = "/etc/gylewarden/gylewarden.toml";

    @TempDir
    Path folder;

    private static List<Path> scripts() {
        return Stream.of(
                        "gylewarden",
                        "make-archive",
                        "try.sh",
                        "control/preinst",
                        "control/postinst",
                        "control/prerm",
                        "control/postrm")
                .map(DEB::resolve)
                .toList();
    }

    @Test
    void how_java_is_started_stands_in_one_file() throws IOException {
        String unit = Files.readString(SYSTEMD.resolve("gylewarden.service"));
        assertTrue(
                unit.contains("\nExecStart=" + JAVA + "-jar /usr/lib/gylewarden/gylewarden.jar run --config " + CONFIG
                        + "\n"),
                unit);
        var elsewhere = new ArrayList<>(scripts());
        elsewhere.add(SYSTEMD.resolve("gylewarden.service"));
        for (Path file : elsewhere)
            assertFalse(
                    Pattern.compile("-Xm|-Xss|-XX:[+]|-D[a-z]")
                            .matcher(Files.readString(file))
                            .find(),
                    file + " has flags of its own");
    }

    /** The flags let Java pass over what it does not know, so that a later one starts; today's is to know each of them. */
    @Test
    void java_knows_every_flag() throws Exception {
        Path java = Path.of(System.getProperty("java.home"), "bin", "java");
        var command = new ArrayList<>(List.of(java.toString(), "@" + SYSTEMD.resolve("java-flags")));
        command.addAll(List.of("-XX:-IgnoreUnrecognizedVMOptions", "-version"));
        String said = run(command);
        assertTrue(said.contains(" version \""), said);
        command.add(command.size() - 1, "-XX:+NoSuchFlagOfJava");
        assertTrue(run(command).contains("Unrecognized VM option 'NoSuchFlagOfJava'"));
    }

    @Test
    void as_installed_the_config_switches_nothing_and_is_no_mistake() throws Exception {
        Config config = ConfigFile.read(DEB.resolve("gylewarden.toml"));
        assertEquals(List.of(), config.relays());
        assertEquals(List.of(), config.probes());
        assertEquals(
                List.of("there is no [[chamber]], so nothing is controlled: name probes, relays and a chamber"),
                Cautions.of(config));
        assertEquals(Path.of("/var/lib/gylewarden"), config.dataDirectory());
    }

    @Test
    void with_its_pattern_uncommented_the_config_is_whole() throws Exception {
        String text = Files.readString(DEB.resolve("gylewarden.toml"));
        Path file = Files.writeString(folder.resolve("board.toml"), text.replaceAll("(?m)^#(?=\\[|[a-z_]+ = )", ""));
        Config config = ConfigFile.read(file);
        assertEquals(2, config.relays().size());
        assertEquals(2, config.probes().size());
        assertEquals(1, config.chambers().size());
    }

    /** A file of root in the data folder would keep the daemon from starting. */
    @Test
    void run_by_root_every_command_that_needs_a_config_becomes_the_daemons_user() throws Exception {
        stub("id", "echo 0");
        stub("setpriv", "echo \"$@\"");
        var commands = new TreeSet<String>();
        for (var command : Main.commandLine().getSubcommands().entrySet()) {
            if (!command.getValue().getCommandSpec().optionsMap().containsKey("--config")) continue;
            commands.add(command.getKey());
            String said = wrapper(command.getKey());
            assertTrue(said.startsWith("--reuid=gylewarden --regid=gylewarden --init-groups "), said);
            assertTrue(said.endsWith(".jar " + command.getKey() + " --config " + CONFIG + "\n"), said);
            boolean namesFiles = List.of("backup", "export", "restore").contains(command.getKey());
            assertEquals(namesFiles, said.contains("+dac_override"), said);
            // What the daemon's user could have written is not run with a right of root.
            assertEquals(namesFiles, said.contains(" -Xshare:off "), said);
        }
        assertTrue(commands.containsAll(List.of("backup", "check", "click", "relays-off", "run")), commands.toString());
    }

    @Test
    void a_config_that_is_named_is_the_one_that_is_taken() throws Exception {
        stub("id", "echo 0");
        stub("setpriv", "echo \"$@\"");
        assertTrue(wrapper("check", "--config", "mine.toml").endsWith(".jar check --config mine.toml\n"));
        assertTrue(wrapper("check", "--config=my own.toml").endsWith(".jar check --config=my own.toml\n"));
        assertTrue(wrapper("relays-off", "--resume").endsWith(".jar relays-off --resume --config " + CONFIG + "\n"));
        assertTrue(wrapper("click", "--help").endsWith(".jar click --help\n"));
    }

    @Test
    void the_manual_page_names_every_command() throws IOException {
        String page = Files.readString(DEB.resolve("gylewarden.1")).replace("\\-", "-");
        for (String command : Main.commandLine().getSubcommands().keySet())
            assertTrue(page.contains("\n.BR " + command + " \" "), command + " is missing");
    }

    @Test
    void the_scripts_are_portable() throws Exception {
        need("shellcheck");
        var command = new ArrayList<>(List.of("shellcheck", "--shell=sh"));
        scripts().forEach(script -> command.add(script.toString()));
        assertEquals("", run(command));
    }

    @Test
    void the_scripts_that_prove_a_board_are_portable() throws Exception {
        need("shellcheck");
        var command = new ArrayList<>(List.of("shellcheck", "--shell=sh"));
        try (Stream<Path> files = Files.list(Path.of("src/board"))) {
            files.filter(file -> file.toString().endsWith(".sh"))
                    .sorted()
                    .map(Path::toString)
                    .forEach(command::add);
        }
        assertTrue(command.contains("src/board/board.sh"), command.toString());
        assertEquals("", run(command));
    }

    private void stub(String name, String script) throws IOException {
        Path tool = Files.writeString(folder.resolve(name), "#!/bin/sh\n" + script + "\n");
        Files.setPosixFilePermissions(tool, PosixFilePermissions.fromString("rwxr-xr-x"));
    }

    private String wrapper(String... arguments) throws Exception {
        List<String> command =
                new ArrayList<>(List.of("sh", DEB.resolve("gylewarden").toString()));
        command.addAll(List.of(arguments));
        return run(command);
    }

    private String run(List<String> command) throws Exception {
        Path said = folder.resolve("said");
        var builder = new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(said.toFile());
        builder.environment().put("PATH", folder + ":" + System.getenv("PATH"));
        Process process = builder.start();
        assertTrue(process.waitFor(50, TimeUnit.SECONDS), "it hangs");
        return Files.readString(said);
    }

    private static void need(String tool) {
        if (Stream.of(System.getenv("PATH").split(":")).anyMatch(path -> Files.isExecutable(Path.of(path, tool))))
            return;
        if ("true".equals(System.getenv("CI"))) fail(tool + " is not installed");
        abort(tool + " is not installed");
    }
}

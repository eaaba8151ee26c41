package gylewarden.app;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;

/** Commands run in this process, on a board of files. */
final class Commands {
    private static final String CONFIG = """
            [store]
            directory = "data"
            [[probe]]
            id = "beer"
            kind = "file"
            path = "beer"
            [[relay]]
            id = "belt"
            kind = "file"
            path = "relays/belt"
            [[chamber]]
            id = "garage"
            beer_probe = "beer"
            heating = "belt"
            """;

    private Commands() {}

    record Outcome(int status, String out, String err) {}

    static Outcome run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int status = Main.commandLine()
                .setOut(new PrintWriter(out, true))
                .setErr(new PrintWriter(err, true))
                .execute(arguments);
        return new Outcome(status, out.toString(), err.toString());
    }

    /** A config with an empty data folder, {@link #data}. */
    static Path config(Path folder) throws IOException {
        Files.createDirectories(data(folder));
        return Files.writeString(folder.resolve("gylewarden.toml"), CONFIG);
    }

    static Path data(Path folder) {
        return folder.resolve("data");
    }
}

package gylewarden.app;

import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.app.config.WrongFile;
import gylewarden.store.BatchReadings;
import gylewarden.store.NewFile;
import gylewarden.store.RecordFailed;
import gylewarden.store.RecordFile;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** A batch's readings for a spreadsheet, also while the daemon runs. */
@Command(
        name = "export",
        description = "Writes what was measured of a batch as CSV, a line a minute; the daemon may run meanwhile.")
final class ExportCommand implements Callable<Integer> {
    @Option(names = "--config", paramLabel = "FILE", required = true, description = "the config of the daemon")
    private Optional<Path> file = Optional.empty();

    @Option(names = "--batch", paramLabel = "ID", required = true, description = "the id of the batch")
    private Optional<String> id = Optional.empty();

    @Option(
            names = "--out",
            paramLabel = "FILE",
            required = true,
            description = "what to write; a file of that name is replaced when the new one is complete")
    private Optional<Path> out = Optional.empty();

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws WrongFile, CommandFailed {
        Config config = ConfigFile.read(file.orElseThrow());
        try {
            RecordFile record = RecordFile.in(config.dataDirectory());
            BatchReadings readings = batch(record);
            write(readings, out.orElseThrow().toAbsolutePath());
        } catch (RecordFailed e) {
            throw new CommandFailed("Nothing was exported. " + e.getMessage());
        }
        return Main.DONE;
    }

    private BatchReadings batch(RecordFile record) throws RecordFailed {
        Optional<BatchReadings> found = Optional.empty();
        Optional<UUID> uuid = uuid(id.orElseThrow());
        if (uuid.isPresent()) found = BatchReadings.of(record, uuid.get());
        if (found.isPresent()) return found.get();
        List<String> known = BatchReadings.known(record);
        throw new ParameterException(
                spec.commandLine(),
                "--batch " + id.orElseThrow() + ": there is no such batch in " + record.path()
                        + (known.isEmpty()
                                ? "; there is none yet"
                                : "; there are:" + System.lineSeparator()
                                        + String.join(System.lineSeparator(), known)));
    }

    private static Optional<UUID> uuid(String text) {
        try {
            return Optional.of(UUID.fromString(text));
        } catch (IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    private void write(BatchReadings readings, Path target) throws RecordFailed, CommandFailed {
        PrintWriter say = spec.commandLine().getOut();
        try (var file = NewFile.beside(target)) {
            long minutes;
            try (Writer text = file.writer()) {
                minutes = readings.writeCsv(text);
            }
            boolean replaced = file.replace();
            say.println(minutes + " minutes of batch " + readings.batch() + " are in " + target
                    + (replaced ? ", which replaces the file of that name." : "."));
            if (minutes == 0) say.println("Nothing has been measured of it yet, or the record was begun anew.");
            say.flush();
        } catch (IOException e) {
            throw new CommandFailed("Nothing was exported: " + target + " could not be written: " + e.getMessage());
        }
    }
}

package gylewarden.app.simulate;

import gylewarden.app.CommandFailed;
import gylewarden.app.config.ControlFile;
import gylewarden.app.config.WrongFile;
import gylewarden.control.Rules;
import gylewarden.plant.Disturbances;
import gylewarden.plant.InventedDisturbances;
import gylewarden.plant.PlantParameters;
import gylewarden.schedule.Schedule;
import gylewarden.simulation.Simulation;
import gylewarden.simulation.Summary;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The same control code on the virtual chamber at full speed. */
@Command(
        name = "simulate",
        description = "Runs a schedule on a virtual chamber, with the same control code and as fast as it can. Writes"
                + " trace.csv, switches.csv, summary.json and trace.svg.")
public final class SimulateCommand implements Callable<Integer> {
    private static final int DONE = 0;
    /** The command line or a file is wrong; a failure while running is thrown and becomes 1. */
    private static final int WRONG = 2;

    private static final double SECONDS_A_DAY = 86_400;

    @Option(names = "--plant", paramLabel = "FILE", required = true, description = "the virtual chamber, TOML")
    private Optional<Path> plant = Optional.empty();

    @Option(names = "--schedule", paramLabel = "FILE", required = true, description = "the schedule, JSON")
    private Optional<Path> schedule = Optional.empty();

    @Option(names = "--out", paramLabel = "DIR", required = true, description = "where the files are written")
    private Optional<Path> out = Optional.empty();

    @Option(
            names = "--disturbances",
            paramLabel = "FILE",
            description = "room, fermentation and door over time, CSV; else those of the plant file")
    private Optional<Path> disturbances = Optional.empty();

    @Option(
            names = "--days",
            paramLabel = "D",
            description = "how long, above 0 to 60 days; else to the end of the last step, at most 60 days")
    private Optional<Double> days = Optional.empty();

    @Option(names = "--seed", paramLabel = "S", defaultValue = "1", description = "of all noise; 1 if not given")
    private long seed;

    @Option(
            names = "--control",
            paramLabel = "FILE",
            description = "settings of the control, TOML with one table [chamber]; else the defaults")
    private Optional<Path> control = Optional.empty();

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws CommandFailed {
        Optional<Duration> length = length();
        var reading = new Reading();
        Optional<Inputs> read = reading.inputs();
        if (read.isEmpty()) {
            reading.reports.forEach(spec.commandLine().getErr()::println);
            spec.commandLine().getErr().flush();
            return WRONG;
        }
        Inputs inputs = read.get();
        Path folder = folder();

        long began = System.nanoTime();
        Simulation simulation = Simulation.run(
                inputs.plant().parameters(), inputs.disturbances(), inputs.rules(), inputs.schedule(), length, seed);
        double wallSeconds = (System.nanoTime() - began) / 1e9;

        Summary summary = Summary.of(simulation.trace());
        write(folder, "trace.csv", TraceFiles.trace(simulation.trace()));
        write(folder, "switches.csv", TraceFiles.switches(simulation.trace()));
        write(folder, "summary.json", SummaryFile.json(summary, wallSeconds));
        write(folder, "trace.svg", TraceChart.svg(simulation.trace(), title()));
        PrintWriter terminal = spec.commandLine().getOut();
        terminal.println(title());
        terminal.print(SummaryFile.text(summary, wallSeconds));
        terminal.println("Written to " + folder + ": trace.csv, switches.csv, summary.json, trace.svg");
        terminal.println("The model knows no ice and no humidity: it proves nothing about freezing.");
        terminal.flush();
        return DONE;
    }

    private record Inputs(PlantFile plant, Disturbances disturbances, Rules rules, Schedule schedule) {}

    private Optional<Duration> length() {
        if (days.isEmpty()) return Optional.empty();
        // What is no number rounds to 0, and what is endless to the largest of all.
        long seconds = Math.round(days.get() * SECONDS_A_DAY);
        if (seconds <= 0 || seconds > Simulation.LONGEST.toSeconds())
            throw new ParameterException(
                    spec.commandLine(), "--days " + written(days.get()) + ": allowed is above 0 to 60");
        return Optional.of(Duration.ofSeconds(seconds));
    }

    private static String written(double number) {
        return Double.isFinite(number) ? TraceFiles.decimal(number) : String.valueOf(number);
    }

    private String title() {
        return name(schedule) + " on " + name(plant) + ", "
                + disturbances.map(file -> name(disturbances) + ", ").orElse("") + "seed " + seed;
    }

    private static String name(Optional<Path> path) {
        return String.valueOf(path.orElseThrow().getFileName());
    }

    private Path folder() throws CommandFailed {
        Path folder = out.orElseThrow();
        try {
            return Files.createDirectories(folder);
        } catch (IOException failed) {
            throw new CommandFailed("cannot make the folder " + folder.toAbsolutePath() + ": " + why(failed)
                    + ". Give --out a folder that may be written.");
        }
    }

    private static void write(Path folder, String name, String text) throws CommandFailed {
        try {
            Files.writeString(folder.resolve(name), text);
        } catch (IOException failed) {
            throw new CommandFailed("cannot write " + folder.resolve(name).toAbsolutePath() + ": " + why(failed)
                    + ". Look at the disk and at who may write there.");
        }
    }

    private static String why(IOException failed) {
        return failed.getClass().getSimpleName() + " " + failed.getMessage();
    }

    /** Reads all files before any is refused, so that the mistakes of all are told at once. */
    private final class Reading {
        private final List<String> reports = new ArrayList<>();

        private interface File<T> {
            T read() throws WrongFile;
        }

        /** Empty if there are reports of mistakes. */
        Optional<Inputs> inputs() {
            Optional<PlantFile> chamber = read(() -> PlantFile.read(plant.orElseThrow()));
            Optional<Schedule> steps = read(() -> ScheduleFile.read(schedule.orElseThrow()));
            Optional<Disturbances> around = disturbances.isPresent()
                    ? read(() -> DisturbancesFile.read(disturbances.get()))
                    : chamber.map(SimulateCommand.this::invented);
            Rules.Fitted fitted = Simulation.fitted(
                    chamber.map(read -> read.parameters().fitted()).orElse(PlantParameters.Fitted.ALL));
            Optional<Rules> rules = control.isPresent()
                    ? read(() -> ControlFile.read(control.get(), fitted))
                    : Optional.of(Rules.defaults().with(fitted));
            if (!reports.isEmpty()) return Optional.empty();
            return Optional.of(
                    new Inputs(chamber.orElseThrow(), around.orElseThrow(), rules.orElseThrow(), steps.orElseThrow()));
        }

        private <T> Optional<T> read(File<? extends T> file) {
            try {
                return Optional.of(file.read());
            } catch (WrongFile wrong) {
                reports.add(String.valueOf(wrong.getMessage()));
                return Optional.empty();
            }
        }
    }

    private Disturbances invented(PlantFile plant) {
        return new InventedDisturbances(
                plant.room(), plant.fermentation(), plant.parameters().beer().volumeLitres(), seed);
    }
}

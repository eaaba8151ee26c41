package gylewarden.app.demo;

import gylewarden.app.CommandFailed;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The daemon on virtual chambers, until SIGTERM or SIGINT. A bug of ours ends it with status 1. */
@Command(
        name = "demo",
        description =
                "Shows the daemon at work on two virtual chambers with an invented story, faster than real time. Needs no"
                        + " hardware and no config; listens on this machine only.")
public final class DemoCommand implements Callable<Integer> {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    private static final int DONE = 0;
    private static final int FAILED = 1;
    private static final int HIGHEST_PORT = 65_535;

    @Option(
            names = "--port",
            paramLabel = "N",
            defaultValue = "8080",
            description = "where the page listens on 127.0.0.1; 8080 if not given, 0 for any that is free")
    private int port;

    @Option(
            names = "--speed",
            paramLabel = "N",
            defaultValue = "" + Pacing.USUAL,
            description = "virtual seconds in a real one, 1 to 3600; 60 if not given, so that an hour takes a minute")
    private int speed;

    @Option(
            names = "--data",
            paramLabel = "DIR",
            description = "keeps the demo's data here, and goes on with them the next time; else they are temporary")
    private Optional<Path> data = Optional.empty();

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws CommandFailed, InterruptedException {
        within("--port", port, 0, HIGHEST_PORT);
        within("--speed", speed, Pacing.SLOWEST, Pacing.FASTEST);
        var status = new AtomicInteger(DONE);
        Thread.UncaughtExceptionHandler bug = (thread, thrown) -> {
            status.set(FAILED);
            LOG.error("A bug ended the thread {}; the demo ends.", thread.getName(), thrown);
            // Not from the thread that died: the end waits for it.
            new Thread(() -> System.exit(FAILED), "ending").start();
        };
        Thread.setDefaultUncaughtExceptionHandler(bug);
        var demo = new Demo();
        Runtime.getRuntime().addShutdownHook(new Thread(() -> end(demo, status.get()), "end"));
        try {
            demo.start(new Demo.Choice(port, speed, data), this::say, bug).ifPresent(this::welcome);
        } catch (CommandFailed | RuntimeException failed) {
            status.set(FAILED);
            throw failed;
        }
        new CountDownLatch(1).await();
        return DONE;
    }

    private void welcome(String address) {
        say("The page is at " + address + " and what can be broken on purpose at " + address + "demo.");
        say("A minute of yours is " + speed + (speed == 1 ? " minute" : " minutes") + " there. Ctrl-C ends it.");
    }

    private void within(String option, int value, int least, int most) {
        if (value < least || value > most)
            throw new ParameterException(
                    spec.commandLine(), option + " " + value + ": allowed is " + least + " to " + most);
    }

    private void say(String sentence) {
        PrintWriter out = spec.commandLine().getOut();
        out.println(sentence);
        out.flush();
    }

    /** A signal would make 143 of the status; asked to end is no failure. */
    private static void end(Demo demo, int status) {
        demo.close();
        Runtime.getRuntime().halt(status);
    }
}

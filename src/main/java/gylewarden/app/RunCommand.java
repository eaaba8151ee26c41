package gylewarden.app;

import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.app.config.WrongFile;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/**
 * The daemon, until SIGTERM or SIGINT. A bug of ours ends it with its relays released and status 1; so does a relay that
 * could not be released at the end.
 */
@Command(name = "run", description = "Controls the chambers of the config until it is told to end.")
final class RunCommand implements Callable<Integer> {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");

    @Option(names = "--config", paramLabel = "FILE", required = true, description = "the config of the board")
    private Optional<Path> file = Optional.empty();

    @Override
    public Integer call() throws WrongFile, CommandFailed, InterruptedException {
        Config config = ConfigFile.read(file.orElseThrow());
        var status = new AtomicInteger(Main.DONE);
        Thread.UncaughtExceptionHandler bug = (thread, thrown) -> {
            status.set(Main.FAILED);
            LOG.error("A bug ended the thread {}; the daemon ends and releases its relays.", thread.getName(), thrown);
            // Not from the thread that died: a loop's end waits for the loop.
            new Thread(() -> System.exit(Main.FAILED), "ending").start();
        };
        Thread.setDefaultUncaughtExceptionHandler(new Uncaught(bug));
        Daemon daemon = Daemon.start(config, bug);
        Runtime.getRuntime().addShutdownHook(new Thread(() -> end(daemon, status.get()), "end"));
        daemon.sayStarted(config);
        new CountDownLatch(1).await();
        return Main.DONE;
    }

    /** A signal would make 143 of the status; asked to end is no failure, unless a relay could not be released. */
    private static void end(Daemon daemon, int status) {
        LOG.info("Ending.");
        boolean released = daemon.end(status == Main.DONE);
        Runtime.getRuntime().halt(released ? status : Main.FAILED);
    }
}

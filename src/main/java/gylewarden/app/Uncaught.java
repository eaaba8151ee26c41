package gylewarden.app;

import java.util.Arrays;
import java.util.Objects;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Hears of every thread that dies of what nobody caught. A bug of ours ends the daemon. A library's own thread, of a broker's
 * connection or a web request, does not: whoever uses the library notices that it is silent, and the beer has nothing to do with it.
 */
final class Uncaught implements Thread.UncaughtExceptionHandler {
    private static final Logger LOG = LoggerFactory.getLogger("gylewarden");
    private static final String OURS = "gylewarden.";

    private final Thread.UncaughtExceptionHandler bug;

    /** @param bug ends the daemon */
    Uncaught(Thread.UncaughtExceptionHandler bug) {
        this.bug = bug;
    }

    @Override
    public void uncaughtException(Thread thread, Throwable thrown) {
        if (isOurs(thrown)) bug.uncaughtException(thread, thrown);
        else
            LOG.error(
                    "A library's thread {} has died of a bug of its own; the control goes on.",
                    thread.getName(),
                    thrown);
    }

    /** An error of the machine, such as memory that is full, is everybody's. Without a trace nobody knows whose it is. */
    private static boolean isOurs(Throwable thrown) {
        if (thrown instanceof Error || thrown.getStackTrace().length == 0) return true;
        return Stream.iterate(thrown, Objects::nonNull, Throwable::getCause)
                .flatMap(each -> Arrays.stream(each.getStackTrace()))
                .anyMatch(frame -> frame.getClassName().startsWith(OURS));
    }
}

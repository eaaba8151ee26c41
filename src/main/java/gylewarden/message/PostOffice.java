package gylewarden.message;

import gylewarden.journal.Letter;
import gylewarden.post.PostRules.Now;
import gylewarden.post.Wishes;
import gylewarden.store.Fate;
import gylewarden.store.Posted;
import gylewarden.units.Uptime;
import java.lang.Thread.UncaughtExceptionHandler;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.Supplier;
import java.util.random.RandomGenerator;

/** Carries the letters that wait, each channel by a thread of its own: one that hangs holds up no other, and no chamber. */
public final class PostOffice implements AutoCloseable {
    private final List<Postman> postmen = new ArrayList<>();
    private final List<Thread> threads = new ArrayList<>();

    /** Where letters wait: the record's outbox. */
    public interface Tray {
        /** In the order in which they were made. */
        List<Posted> waiting(String channel);

        boolean settled(UUID letter, Fate fate);
    }

    /** @param wishes as they are now, for a person may change them at any time */
    public record Round(Channel channel, Supplier<Wishes> wishes) {}

    /**
     * Opens at once.
     *
     * @param now by the clocks of the world, whatever time the chambers keep
     * @param zone of the times in summaries
     * @param dice spread the tries
     * @param bug is told what a thread of ours throws
     */
    public static PostOffice open(
            List<Round> rounds,
            Tray tray,
            Supplier<Now> now,
            ZoneId zone,
            RandomGenerator dice,
            UncaughtExceptionHandler bug) {
        var office = new PostOffice();
        for (Round round : rounds) {
            var postman = new Postman(round, tray, now, zone, dice);
            var thread = new Thread(postman::work, "post-" + round.channel().name());
            thread.setDaemon(true);
            thread.setUncaughtExceptionHandler(bug);
            office.postmen.add(postman);
            office.threads.add(thread);
        }
        office.threads.forEach(Thread::start);
        return office;
    }

    private PostOffice() {}

    /** There may be something new. */
    public void look() {
        postmen.forEach(Postman::look);
    }

    /** A channel can be reached again. */
    public void hurry(String channel) {
        postmen.stream().filter(postman -> postman.name().equals(channel)).forEach(Postman::hurry);
    }

    public List<ChannelState> states() {
        return postmen.stream().map(Postman::state).toList();
    }

    /** Ends without waiting for a letter under way: it goes out again after the next start. */
    @Override
    public void close() {
        postmen.forEach(Postman::end);
        threads.forEach(Thread::interrupt);
    }

    /** How long a letter is tried for. */
    static Duration triedFor(Letter letter) {
        return Duration.between(letter.made(), letter.giveUp());
    }

    /** Whether it has been tried for that long. */
    static boolean isOld(Letter letter, Uptime first, Uptime now) {
        return now.since(first).compareTo(triedFor(letter)) >= 0;
    }
}

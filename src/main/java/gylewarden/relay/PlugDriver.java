package gylewarden.relay;

import gylewarden.control.Contact;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/**
 * A plug on a network, which releases its load by itself after a time in which it is not told "on" again. Only what it says
 * of itself after it was told counts: without that answer nobody knows what its load does, and the write has failed.
 */
public final class PlugDriver implements RelayDriver {
    /** How long an answer is waited for: some plugs sleep between two words for a second or two; shorter than a lease. */
    public static final Duration ANSWERS_WITHIN = Duration.ofSeconds(5);

    /** A plug nearby answers within a tenth of this; for one that does not answer no loop is late. */
    private static final Duration WAITED_FOR = Duration.ofMillis(200);

    /** Two renewals may get lost before the plug releases by itself. */
    private static final int RENEWALS = 3;

    private final PlugLine line;
    private final Duration rewriteEach;
    private final Duration answersWithin;
    private final Object lock = new Object();
    private Optional<Question> question = Optional.empty();
    private Optional<Known> known = Optional.empty();

    /** What the plug has been told and has not answered yet. */
    private record Question(Contact told, Uptime over, CompletableFuture<Contact> answer, boolean renewal) {}

    /** What the plug has last answered, and what it has said since that is not the same. */
    private record Known(Contact contact, Uptime over, Optional<Contact> contrary) {}

    /** @param autoOff the time after which the plug releases by itself */
    public PlugDriver(PlugLine line, Duration autoOff) {
        this(line, autoOff, ANSWERS_WITHIN);
    }

    PlugDriver(PlugLine line, Duration autoOff, Duration answersWithin) {
        this.line = line;
        this.rewriteEach = renewedEach(autoOff);
        this.answersWithin = answersWithin;
        line.listen(this::heard);
    }

    /** How often a plug with this time is told "on" again while it is to stay energised. */
    public static Duration renewedEach(Duration autoOff) {
        return autoOff.dividedBy(RENEWALS);
    }

    /** A start takes two answers. */
    @Override
    public Duration answersWithin() {
        return ANSWERS_WITHIN.multipliedBy(2);
    }

    @Override
    public Duration waitedFor() {
        return WAITED_FOR;
    }

    @Override
    public Optional<Duration> rewriteEach() {
        return Optional.of(rewriteEach);
    }

    /**
     * Before the first "on" the plug is told "off" and has to answer over the very connection that "on" then takes: a word to
     * start must not wait in a connection that is dead and does not know it yet, for it would be carried out much later.
     */
    @Override
    public void write(Contact contact) throws IOException {
        if (contact == Contact.RELEASED) {
            tell(Contact.RELEASED, false);
            return;
        }
        boolean renewal = isKnownEnergised();
        if (!renewal) tell(Contact.RELEASED, false);
        Optional<String> astray = astray();
        if (astray.isPresent()) throw new IOException(astray.get());
        tell(Contact.ENERGISED, renewal);
    }

    private boolean isKnownEnergised() {
        synchronized (lock) {
            return known.filter(last -> last.contact() == Contact.ENERGISED).isPresent();
        }
    }

    private void tell(Contact contact, boolean renewal) throws IOException {
        var answer = new CompletableFuture<Contact>();
        Optional<Uptime> over = line.connection();
        synchronized (lock) {
            known = Optional.empty();
            question = over.map(stands -> new Question(contact, stands, answer, renewal));
        }
        if (over.isEmpty()) throw new IOException("the broker is away" + trouble());
        try {
            line.say(contact);
            if (answer.get(answersWithin.toMillis(), TimeUnit.MILLISECONDS) != contact)
                throw new IOException("the plug has gone off by itself or by hand");
        } catch (TimeoutException silent) {
            throw new IOException(
                    "the plug was told to go " + word(contact) + " and has not said within " + answersWithin.toSeconds()
                            + " s that it is: is it there, and are topic, state_topic, on and off right?" + trouble(),
                    silent);
        } catch (InterruptedException | ExecutionException e) {
            throw new IOException("the wait for the plug's answer was cut short", e);
        } finally {
            synchronized (lock) {
                question = Optional.empty();
            }
        }
    }

    private String trouble() {
        return line.trouble().map(why -> ": " + why).orElse("");
    }

    private void heard(Contact says) {
        synchronized (lock) {
            if (question.isPresent()) {
                Question open = question.get();
                boolean answers = says == open.told();
                // What it says before it has heard us is no answer, unless it had to stay as it was.
                if (!answers && !open.renewal()) return;
                question = Optional.empty();
                if (answers) known = Optional.of(new Known(says, open.over(), Optional.empty()));
                open.answer().complete(says);
            } else {
                known = known.map(last ->
                        says == last.contact() ? last : new Known(last.contact(), last.over(), Optional.of(says)));
            }
        }
    }

    /** That it was switched by hand or by its own timer; or that nobody could have heard of it. */
    @Override
    public Optional<String> astray() {
        Optional<Known> last;
        synchronized (lock) {
            last = known;
        }
        if (last.isEmpty()) return Optional.empty();
        Optional<String> switched = last.get()
                .contrary()
                .map(says -> "the plug was told to be " + word(last.get().contact()) + " and has gone " + word(says)
                        + ", by hand, by its own timer or by another program");
        return switched.or(() -> line.connection()
                .filter(now -> !now.equals(last.get().over()))
                .map(other -> "the broker was away, and nobody knows what the plug did meanwhile"));
    }

    private static String word(Contact contact) {
        return contact == Contact.ENERGISED ? "on" : "off";
    }
}

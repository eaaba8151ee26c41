package gylewarden.relay;

import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;

/**
 * The bookkeeping of one relay, the same for every kind: what it has been asked, what must be written when, and what the
 * next call is told. Writes nothing itself and knows no thread: {@link LeasedRelay} drives it on real time behind a lock,
 * {@link SimulatedRelay} on virtual time.
 *
 * <p>Its one rule: whatever is not known to be released is energised, and whatever the relay released by itself is told
 * before anything is energised again, for the caller has to count a stop.
 */
final class Lease {
    /** How long after a failed release the next one is tried: once a tick, so a relay that clatters does so slowly. */
    static final Duration RETRY = Duration.ofSeconds(1);

    static final Duration SHORTEST = Duration.ofSeconds(5);
    static final Duration LONGEST = Duration.ofSeconds(30);

    /** Later than any clock: half the range, so that a span up to it never overflows. */
    private static final Uptime NEVER = new Uptime(Long.MAX_VALUE / 2);

    private Contact contact = Contact.ENERGISED;
    private Contact told = Contact.RELEASED;
    private Uptime since;
    private Uptime releaseDue;
    private Uptime ends = NEVER;
    private boolean energiseDue;
    private Uptime rewriteDue = NEVER;
    private Uptime wished;
    private Uptime begun;
    private final Optional<Duration> rewriteEach;
    private boolean lapsing;
    private Optional<Uptime> lapsed = Optional.empty();
    private Optional<String> failure = Optional.empty();

    /** A relay that nobody has written yet: its load counts as energised, and a release is due at once. */
    Lease(Uptime start) {
        this(start, Optional.empty());
    }

    /** @param rewriteEach how often energised is written again while a caller wishes it; empty: never */
    Lease(Uptime start, Optional<Duration> rewriteEach) {
        since = start;
        releaseDue = start;
        begun = start;
        wished = start;
        this.rewriteEach = rewriteEach;
    }

    /** Takes a caller's wish. What has to be written for it, {@link #due} says. */
    void ask(Contact wanted, Duration lease, Uptime now) {
        if (lease.compareTo(SHORTEST) < 0 || lease.compareTo(LONGEST) > 0)
            throw new IllegalArgumentException("a lease of " + lease + "; allowed 5 to 30 s");
        expire(now);
        if (owesRelease()) return;
        if (wanted == Contact.ENERGISED) wished = now;
        if (wanted == Contact.RELEASED) {
            if (contact == Contact.ENERGISED) owe(now);
        } else if (contact == Contact.ENERGISED) {
            ends = now.plus(lease);
        } else if (told == Contact.RELEASED) {
            ends = now.plus(lease);
            energiseDue = true;
        }
    }

    /** A release whatever was asked before, and at once even if one has just failed. */
    void releaseNow(Uptime now) {
        energiseDue = false;
        if (contact == Contact.ENERGISED) owe(now);
    }

    /** What has to be written now; empty if nothing. */
    Optional<Contact> due(Uptime now) {
        expire(now);
        if (!releaseDue.isAfter(now)) return Optional.of(Contact.RELEASED);
        return energiseDue || rewriteIsDue() ? Optional.of(Contact.ENERGISED) : Optional.empty();
    }

    /** Whether what has to be written now changes nothing: nobody waits for that. */
    boolean isRewrite(Uptime now) {
        return !energiseDue && releaseDue.isAfter(now) && rewriteIsDue();
    }

    /** Only once it has been wished again since it became due: what nobody wishes any more is never written again. */
    private boolean rewriteIsDue() {
        return !owesRelease() && !rewriteDue.isAfter(wished);
    }

    /** When something will have to be written if nobody asks anything until then. */
    Uptime nextDue() {
        return releaseDue.isBefore(ends) ? releaseDue : ends;
    }

    /** A write has begun: from here on the load may be energised. */
    void writing(Contact written, Uptime now) {
        energiseDue = false;
        rewriteDue = NEVER;
        begun = now;
        if (written == Contact.ENERGISED && contact == Contact.RELEASED) become(Contact.ENERGISED, now);
    }

    /** A write has succeeded. */
    void written(Contact written, Uptime now) {
        if (written == Contact.ENERGISED && owesRelease()) return; // too late: the release follows
        failure = Optional.empty();
        if (written == Contact.ENERGISED) {
            rewriteDue = rewriteEach.map(begun::plus).orElse(NEVER);
            return;
        }
        releaseDue = NEVER;
        ends = NEVER;
        if (contact == Contact.ENERGISED) become(Contact.RELEASED, now);
        if (lapsing) lapsed = Optional.of(now);
        lapsing = false;
    }

    /** A write has failed: nobody knows what the load does, so a release is owed. */
    void failed(String why, Uptime now) {
        failure = Optional.of(why);
        owe(now.plus(RETRY));
    }

    /** A write has missed its deadline and still hangs: a release follows as soon as it lets go. */
    void overdue(String why, Uptime now) {
        failure = Optional.of(why);
        owe(now);
    }

    /** The load may be in another contact than was written: it counts as energised, and a release is owed. */
    void astray(String why, Uptime now) {
        failure = Optional.of(why);
        if (contact == Contact.RELEASED) become(Contact.ENERGISED, now);
        owe(now);
    }

    /** What the caller is told, a lapse once. */
    Switched report() {
        told = contact;
        if (contact == Contact.ENERGISED) return new Switched(contact, since, Optional.empty(), failure);
        Optional<Uptime> lapse = lapsed;
        lapsed = Optional.empty();
        return new Switched(contact, since, lapse, failure);
    }

    /** Whether the load is known to be released. */
    boolean isReleased() {
        return contact == Contact.RELEASED;
    }

    /** Whether a release has to be written, now or later, before anything else. */
    boolean owesRelease() {
        return releaseDue.isBefore(NEVER);
    }

    private void owe(Uptime when) {
        releaseDue = when;
        ends = NEVER;
        energiseDue = false;
    }

    private void expire(Uptime now) {
        if (ends.isAfter(now)) return;
        lapsing = true;
        owe(ends);
    }

    private void become(Contact other, Uptime now) {
        contact = other;
        since = now;
    }
}

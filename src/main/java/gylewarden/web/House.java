package gylewarden.web;

import gylewarden.batch.Mandate;
import gylewarden.chamber.Answer;
import gylewarden.commission.Commissioned;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/** What the API looks at of the chambers that run. Every call returns at once. */
public interface House {
    /** In the order of the config. */
    List<Room> rooms();

    /** The latest status; empty before the first tick. */
    Optional<ChamberStatus> status(String chamber);

    /** What the relays of a chamber have done since the daemon started; none before the first tick. */
    Map<Side, Worked> worked(String chamber);

    /** Chambers whose loop has not ticked for some seconds. */
    List<String> late();

    Beside beside(String chamber);

    /** What was asked of chambers that the config does not name. */
    List<Stray> strays();

    WallClock clock();

    /** A person says that the wall clock is right as it is. */
    Answer clockIsRight(String actor);

    /** Whether a person has switched every relay off, in force now; they stay so, over a restart too. */
    boolean relaysOff();

    /**
     * A person switches every relay off, or ends that; the end is also the word that what was latched may try again. What is
     * switched off is so even where it could not be saved, and then holds until a restart; an end that can't be is refused.
     */
    Answer switchOff(boolean off, String actor);

    /** @param starts how often it was energised */
    record Worked(Duration energised, long starts) {}

    /**
     * A chamber as the config names it.
     *
     * @param watched ids of the probes that are only watched, in the order of {@code Readings.watched}
     * @param outer the limits that nobody can widen from the page
     */
    record Room(String id, String name, List<String> watched, Rules.Limits outer) {
        public Room {
            watched = List.copyOf(watched);
        }
    }

    /**
     * What is known of a chamber beside its status.
     *
     * @param mandate with what people asked since the last tick
     * @param otherBatches those that stand in it and do not decide
     * @param saved false while something that people asked of it is not on disk
     * @param alarms how many about it wait for a person
     * @param commissioned how its commissioning ended; absent if it never was, wired as it is now
     */
    record Beside(
            Mandate mandate, List<UUID> otherBatches, boolean saved, int alarms, Optional<Commissioned> commissioned) {
        public Beside {
            otherBatches = List.copyOf(otherBatches);
        }
    }

    /**
     * Something that nothing follows, for its chamber left the config.
     *
     * @param batch that stands there; absent for what else was asked of the chamber
     * @param sentence what it is, and what to do now
     */
    record Stray(String chamber, Optional<UUID> batch, String sentence) {}

    /**
     * The board's wall clock.
     *
     * @param because why it is trusted or not, a sentence
     * @param bootSince when the board was booted, by this same clock
     */
    record WallClock(Instant now, boolean trusted, String because, Instant bootSince) {}
}

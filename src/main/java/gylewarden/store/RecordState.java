package gylewarden.store;

import gylewarden.schedule.ClockReading;
import java.util.Optional;

/**
 * How the record is at the moment.
 *
 * @param broken empty while it is sound
 * @param waitingMinutes minutes of chambers that are in memory only
 * @param waitingEvents as above
 * @param unsaved whether something that a person typed is in memory only
 * @param droppedMinutes lost since the start, because too many waited
 * @param droppedEvents as above
 * @param droppedTyped changes by people, as above
 * @param droppedLetters given up without having gone out, because too many waited
 */
public record RecordState(
        Optional<Broken> broken,
        int waitingMinutes,
        int waitingEvents,
        boolean unsaved,
        long droppedMinutes,
        long droppedEvents,
        long droppedTyped,
        long droppedLetters) {
    public static final int SCHEMA_VERSION = Schema.VERSION;

    /** @param since the clocks when it was first met */
    public record Broken(Trouble trouble, ClockReading since) {}

    public boolean isSound() {
        return broken.isEmpty();
    }

    /** As this one, but not to be called sound; what fails altogether is told before that. */
    public RecordState with(Broken displaced) {
        if (!isSound()) return this;
        return new RecordState(
                Optional.of(displaced),
                waitingMinutes,
                waitingEvents,
                unsaved,
                droppedMinutes,
                droppedEvents,
                droppedTyped,
                droppedLetters);
    }

    static RecordState of(Optional<Broken> broken, Waiting waiting) {
        return new RecordState(
                broken,
                waiting.minutes().size(),
                waiting.events().size(),
                waiting.isTyped(),
                waiting.dropped().minutes(),
                waiting.dropped().events(),
                waiting.dropped().typed(),
                waiting.dropped().letters());
    }

    /** What is the matter, and what it means. */
    public String sentence() {
        String lost = (droppedMinutes == 0 ? "" : " " + droppedMinutes + " older minutes are lost.")
                + (droppedLetters == 0 ? "" : " " + droppedLetters + " messages were given up, for too many waited.");
        if (broken.isEmpty()) return "The record is written." + lost;
        if (broken.get().trouble().kind() == Trouble.Kind.DISPLACED)
            return broken.get().trouble().sentence() + " Control goes on." + lost;
        return broken.get().trouble().sentence() + " Control goes on; " + waitingMinutes
                + " minutes wait in memory and are written when that is over." + lost;
    }
}

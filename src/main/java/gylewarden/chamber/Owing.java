package gylewarden.chamber;

import gylewarden.batch.Batch;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Standing;
import gylewarden.schedule.ElapsedClock.Unsettled;
import gylewarden.schedule.TimeEvent.Because;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/**
 * While nobody knows yet for how long power was away, that time is owed to the batch that it interrupted: it goes along with
 * that one to another chamber, and to no other batch.
 *
 * @param before how the chambers stood that a person's word is about
 * @param setRight the chambers whose schedule that person has set right
 * @param changed the batches as they are after it
 */
record Owing(Map<String, Standing> before, Set<String> setRight, List<Listed> changed) {
    /** How the chambers stand after it. */
    Map<String, Standing> after(Map<String, Standing> asked) {
        Map<String, Standing> next = new LinkedHashMap<>(asked);
        next.replaceAll((chamber, standing) -> {
            Standing was = Optional.ofNullable(before.get(chamber)).orElse(standing);
            if (setRight.contains(chamber)) return was.owingNothing(standing.mandate());
            Standing asks = was.asked(standing.mandate());
            Optional<UUID> comes = idOf(standing);
            return comes.isEmpty() || comes.equals(idOf(was))
                    ? asks
                    : new Standing(asks.mandate(), asks.clock().with(owedTo(comes)));
        });
        return next;
    }

    private Optional<Unsettled> owedTo(Optional<UUID> batch) {
        return before.values().stream()
                .filter(standing -> idOf(standing).equals(batch))
                .findFirst()
                .flatMap(standing -> standing.clock().unsettled());
    }

    /** Where the time without power was owed and is so no more, though its batch goes on. */
    Map<String, Because> dropped(Map<String, Standing> next) {
        Map<String, Because> dropped = new LinkedHashMap<>();
        next.forEach((chamber, standing) -> {
            Optional<Standing> was = Optional.ofNullable(before.get(chamber))
                    .filter(owed -> owed.clock().unsettled().isPresent());
            Optional<UUID> batch = was.flatMap(Owing::idOf);
            boolean owed = standing.clock().unsettled().isPresent()
                    || next.values().stream()
                            .anyMatch(other -> idOf(other).equals(batch)
                                    && other.clock().unsettled().isPresent());
            if (batch.isEmpty() || owed || isEnded(batch.get())) return;
            boolean stays = idOf(standing).equals(batch);
            dropped.put(
                    chamber,
                    setRight.contains(chamber) ? Because.SET_RIGHT : stays ? Because.STOOD_STILL : Because.RIDES_ALONG);
        });
        return dropped;
    }

    private boolean isEnded(UUID batch) {
        return changed.stream()
                .map(Listed::batch)
                .anyMatch(each -> each.id().equals(batch) && each.stage() == Batch.Stage.ENDED);
    }

    private static Optional<UUID> idOf(Standing standing) {
        return standing.mandate().batch().map(Batch::id);
    }
}

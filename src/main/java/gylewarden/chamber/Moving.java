package gylewarden.chamber;

import gylewarden.batch.Batch;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Standing;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;

/** Works out what becomes of a batch, and of the chambers that it touches, when several things change at once. */
final class Moving {
    private final Clerk clerk;
    private final Map<String, Standing> standings = new LinkedHashMap<>();
    private final List<Listed> parked = new ArrayList<>();
    private Batch batch;
    private boolean decides;

    Moving(Clerk clerk, Listed listed) {
        this.clerk = clerk;
        this.batch = listed.batch();
        this.decides = listed.decides();
    }

    Batch batch() {
        return batch;
    }

    boolean decides() {
        return decides;
    }

    void change(UnaryOperator<Batch> how) {
        batch = how.apply(batch);
        if (decides) place(batch.chamber(), Optional.of(batch));
    }

    /** Returns whether it decides there. */
    boolean moveTo(String chamber) {
        if (decides) leave(batch.chamber());
        batch = batch.movedTo(chamber);
        decides = standing(chamber).mandate().batch().isEmpty();
        if (decides) place(chamber, Optional.of(batch));
        return decides;
    }

    /** Takes the place of the batch that decides in its chamber, whose course is kept as far as it has got. */
    void decide() {
        standing(batch.chamber()).mandate().batch().ifPresent(other -> parked.add(new Listed(other, false)));
        decides = true;
        place(batch.chamber(), Optional.of(batch));
    }

    Map<String, Standing> standings() {
        return standings;
    }

    /** The batch itself first. */
    List<Listed> listed() {
        List<Listed> all = new ArrayList<>();
        all.add(new Listed(batch, decides));
        all.addAll(parked);
        return all;
    }

    private Standing standing(String chamber) {
        return standings.computeIfAbsent(chamber, clerk::standing);
    }

    private void leave(String chamber) {
        Standing now = standing(chamber);
        standings.put(chamber, now.with(now.mandate().left()));
    }

    private void place(String chamber, Optional<Batch> there) {
        Standing now = standing(chamber);
        standings.put(chamber, now.with(now.mandate().withBatch(there)));
    }
}

package gylewarden.web;

import gylewarden.journal.Scale;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;

/** A chamber as {@code GET /api/chambers/ID} gives it, for those who pass it on by another way. */
public record ChamberText(House house) {
    /** The text; empty before the first tick, and of a chamber that is not there. */
    public Optional<String> of(String chamber) {
        return with(
                chamber,
                (room, beside) -> house.status(chamber)
                        .map(status -> ChamberDocument.of(room, beside, status, Scale.CELSIUS)
                                .toString()));
    }

    /** What a change of is worth telling at once; empty as above. */
    public Optional<List<Object>> substance(String chamber) {
        return with(
                chamber, (room, beside) -> house.status(chamber).map(status -> LiveFrame.substance(beside, status)));
    }

    private <T> Optional<T> with(String chamber, BiFunction<House.Room, House.Beside, Optional<T>> use) {
        return house.rooms().stream()
                .filter(room -> room.id().equals(chamber))
                .findFirst()
                .flatMap(room -> use.apply(room, house.beside(chamber)));
    }
}

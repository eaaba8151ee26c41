package gylewarden.store;

import java.util.Optional;
import java.util.function.Function;

/**
 * What the record says.
 *
 * @param value as far as it can be read: while the database is broken, what is in memory
 * @param missing why there may be more; empty if that is all
 */
public record Found<T>(T value, Optional<Trouble> missing) {
    <U> Found<U> map(Function<T, U> change) {
        return new Found<>(change.apply(value), missing);
    }
}

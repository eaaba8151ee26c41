package gylewarden.store;

import java.sql.SQLException;
import org.jdbi.v3.core.HandleCallback;

/** Somewhere the record can be read from: the daemon's own {@link Database}, or its file beside a running daemon. */
@FunctionalInterface
public interface RecordReader {
    /**
     * Does all of {@code query} on one connection, which changes nothing.
     *
     * @throws RecordFailed if the record can't be read
     */
    <T> T read(HandleCallback<T, SQLException> query) throws RecordFailed;
}

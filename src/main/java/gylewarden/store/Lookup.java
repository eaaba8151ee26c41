package gylewarden.store;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.HandleCallback;

/** Reads the database as far as it can be read, and says why if there may be more. */
record Lookup(Database database) {
    /** Rows that can't be understood hide no other. */
    <T> Found<List<T>> readable(HandleCallback<List<LedgerTable.Row<T>>, SQLException> query) {
        Found<List<LedgerTable.Row<T>>> rows = read(List.of(), query);
        List<String> unreadable = new ArrayList<>();
        List<T> values = new ArrayList<>();
        for (LedgerTable.Row<T> each : rows.value()) each.read(unreadable).ifPresent(values::add);
        Optional<Trouble> some = unreadable.isEmpty()
                ? rows.missing()
                : Optional.of(Trouble.other(database.path(), String.join("; ", unreadable)));
        return new Found<>(values, some);
    }

    <T> Found<T> read(T otherwise, HandleCallback<T, SQLException> query) {
        try {
            return new Found<>(database.read(query), Optional.empty());
        } catch (RecordFailed e) {
            return new Found<>(otherwise, Optional.of(e.trouble()));
        }
    }
}

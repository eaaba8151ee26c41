package gylewarden.app.config;

import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A table that has an id, and what was made of it.
 *
 * @param id empty if it is missing or wrong
 * @param value empty if its table has mistakes that leave nothing to use
 */
record Entry<T>(Table table, Optional<String> id, Optional<T> value) {
    private static final Pattern ID = Pattern.compile("[a-z0-9-]{1,32}");

    /** Reads the id of a table, without which nothing can refer to it. */
    static Optional<String> id(Table table, String example) {
        table.require("id", "every " + table.name() + " needs one, for example id = \"" + example + '"');
        Optional<String> id = table.text("id");
        if (id.isPresent() && !ID.matcher(id.get()).matches()) {
            table.mistake("id", "write small letters, digits and hyphens only, at most 32: \"" + example + '"');
            return Optional.empty();
        }
        return id;
    }
}

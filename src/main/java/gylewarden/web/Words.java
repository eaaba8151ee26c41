package gylewarden.web;

import java.util.Locale;

/** Names as the API writes them: lower camel case. */
final class Words {
    private Words() {}

    /** Of a type's name, such as MustStayOff. */
    static String camel(String name) {
        return name.substring(0, 1).toLowerCase(Locale.ROOT) + name.substring(1);
    }

    /** Of a constant's name, such as POWER_ON_VALUE. */
    static String camel(Enum<?> constant) {
        StringBuilder words = new StringBuilder();
        for (String word : constant.name().toLowerCase(Locale.ROOT).split("_", -1))
            words.append(
                    words.length() == 0 ? word : word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1));
        return words.toString();
    }
}

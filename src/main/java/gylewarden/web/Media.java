package gylewarden.web;

import java.util.Locale;

/** Media ranges of the Accept header, RFC 9110 12.5.1; of the weights only 0 matters, for nothing here comes in two forms. */
final class Media {
    private Media() {}

    static boolean accepts(String accept, String type) {
        String major = type.substring(0, type.indexOf('/'));
        boolean accepted = false;
        for (String range : accept.toLowerCase(Locale.ROOT).split(",", -1)) {
            String[] parts = range.split(";", -1);
            String name = parts[0].strip();
            boolean matches = name.equals("*/*") || name.equals(major + "/*") || name.equals(type);
            if (!matches) continue;
            boolean refused = false;
            for (int i = 1; i < parts.length; i++)
                refused |= parts[i].replace(" ", "").matches("q=0(\\.0{0,3})?");
            if (name.equals(type)) return !refused;
            accepted |= !refused;
        }
        return accepted;
    }
}

package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** What can be known of the page without a browser. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class PageFilesTest {
    private static final String FOLDER = "gylewarden/web/page/";
    private static final Pattern IMPORT = Pattern.compile("(?:from |import\\()'(\\.[^']+)'");
    private static final Pattern NAMED = Pattern.compile("(?:href|src)=\"" + Assets.VERSION + "([^\"]+)\"");

    private final Map<String, String> files = new TreeMap<>();

    PageFilesTest() {
        Resources.under(FOLDER, "index.html")
                .forEach((name, bytes) -> files.put(name, new String(bytes, StandardCharsets.UTF_8)));
    }

    @Test
    void every_file_that_a_module_imports_is_there() {
        int imports = 0;
        for (String name : modules()) {
            Matcher imported = IMPORT.matcher(files.get(name));
            for (; imported.find(); imports++) {
                Path beside = Path.of(name).resolveSibling(imported.group(1)).normalize();
                assertTrue(files.containsKey(beside.toString()), name + " imports " + imported.group(1));
            }
        }
        assertTrue(imports > 100, "only " + imports + " imports were seen");
    }

    @Test
    void every_file_that_the_page_names_is_there() {
        Matcher named = NAMED.matcher(files.get("index.html"));
        List<String> seen = new ArrayList<>();
        while (named.find()) seen.add(named.group(1));
        assertTrue(seen.contains("main.js"), seen.toString());
        for (String name : seen) assertTrue(files.containsKey(name), name);
        long sheets =
                files.keySet().stream().filter(name -> name.endsWith(".css")).count();
        assertEquals(sheets + 1, seen.size(), "every sheet is named once, beside the one script");
    }

    @Test
    void the_libraries_are_asked_for_where_they_are_served() {
        String library = files.get("library.js");
        assertTrue(library.contains("'/lib/lit-html/" + Assets.LIT_HTML + "/lit-html.js'"), library);
        assertTrue(library.contains("'/lib/uplot/" + Assets.UPLOT + "/'"), library);
        for (String name : modules())
            assertTrue(
                    name.equals("library.js") || !files.get(name).contains("'/lib/"), name + " goes past library.js");
    }

    @Test
    void nothing_is_asked_of_another_machine() {
        files.forEach((name, text) -> {
            for (String outside : List.of("http://", "https://", "ws://", "wss://", "'//", "\"//", "url(//"))
                assertTrue(!text.contains(outside), name + " holds " + outside);
        });
    }

    /** The policy that the page is served with forbids both; a browser would drop them without a word. */
    @Test
    void there_is_no_inline_style_and_no_inline_script() {
        files.forEach((name, text) -> {
            assertTrue(!Pattern.compile("\\sstyle=").matcher(text).find(), name + " has an inline style");
            assertTrue(!Pattern.compile("\\son[a-z]+=[\"']").matcher(text).find(), name + " has an inline handler");
            assertTrue(!Pattern.compile("<script(?![^>]* src=)").matcher(text).find(), name + " has an inline script");
        });
    }

    @Test
    void no_module_is_longer_than_three_hundred_lines() {
        for (String name : modules()) {
            long lines = files.get(name).lines().count();
            assertTrue(lines <= 300, name + " has " + lines);
        }
    }

    private List<String> modules() {
        return files.keySet().stream().filter(name -> name.endsWith(".js")).toList();
    }
}

package gylewarden.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.xml.sax.SAXException;

/** docs/dependencies.md has a row for each dependency and plug-in of the pom, in the version that is used, and no other. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class DependenciesPageTest {
    private static final Pattern ROW = Pattern.compile("(?m)^\\| `([a-z0-9._-]+)` \\| ([0-9.]+) \\|.*[^ |] \\|$");
    private static final Pattern PROPERTY = Pattern.compile("\\$\\{(.+)}");

    @Test
    void the_page_and_the_pom_name_the_same_things_in_the_same_versions()
            throws IOException, ParserConfigurationException, SAXException {
        Document pom = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(Path.of("pom.xml").toFile());
        var used = new TreeMap<String, String>();
        for (String kind : new String[] {"dependency", "plugin", "path"}) {
            var found = pom.getElementsByTagName(kind);
            for (int i = 0; i < found.getLength(); i++) {
                Element element = (Element) found.item(i);
                used.put(text(element, "artifactId"), resolved(pom, text(element, "version")));
            }
        }
        assertTrue(used.size() >= 20, "only " + used.size() + " found in the pom");
        assertEquals(used, rows());
    }

    private static Map<String, String> rows() throws IOException {
        var rows = new TreeMap<String, String>();
        ROW.matcher(Files.readString(Path.of("docs", "dependencies.md")))
                .results()
                .forEach(row -> rows.put(row.group(1), row.group(2)));
        return rows;
    }

    private static String text(Element parent, String name) {
        return parent.getElementsByTagName(name).item(0).getTextContent();
    }

    private static String resolved(Document pom, String version) {
        var property = PROPERTY.matcher(version);
        if (!property.matches()) return version;
        return pom.getElementsByTagName(property.group(1)).item(0).getTextContent();
    }
}

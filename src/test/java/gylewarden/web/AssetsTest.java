package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class AssetsTest {
    private final Assets assets = Assets.load("gylewarden/web/small-page/");
    private RunningServer running;
    private Client client;

    @BeforeAll
    void start() throws NotStarted {
        running = RunningServer.of(new SmallHouse());
        client = new Client(running.server().port());
    }

    @AfterAll
    void end() {
        running.close();
    }

    @Test
    void the_page_names_its_files_by_a_version_under_which_they_are_kept_for_good() {
        var page = client.get("/");
        assertEquals(200, page.status());
        assertEquals("text/html;charset=utf-8", page.header("Content-Type").replace(" ", ""));
        assertEquals("no-cache", page.header("Cache-Control"));
        var link = Pattern.compile("src=\"(/page/[0-9a-f]{12}/small.js)\"").matcher(page.body());
        assertTrue(link.find(), page.body());
        var file = client.get(link.group(1));
        assertEquals(200, file.status());
        assertEquals(
                "text/javascript;charset=utf-8", file.header("Content-Type").replace(" ", ""));
        assertEquals("public, max-age=31536000, immutable", file.header("Cache-Control"));
        assertTrue(file.body().startsWith("export const small"), file.body());
    }

    @Test
    void every_address_of_the_page_gives_the_page() {
        for (String path : List.of("/", "/chamber/cave", "/chamber/cave/start", "/batch/1/schedule"))
            assertTrue(client.get(path).body().contains("A small page"), path);
    }

    @Test
    void a_browser_that_has_the_page_gets_no_second_copy() {
        String tag = client.get("/").header("ETag");
        var again = client.send(client.request("/").header("If-None-Match", tag));
        assertEquals(304, again.status());
        assertEquals("", again.body());
        assertEquals(tag, again.header("ETag"));
    }

    @Test
    void files_are_sent_packed_to_those_who_take_it() throws java.io.IOException {
        String path = "/lib/uplot/1.6.30/uPlot.esm.js";
        var plain = client.get(path);
        assertEquals("", plain.header("Content-Encoding"));
        assertTrue(plain.body().length() > 140_000, "plain " + plain.body().length());
        String packed = client.raw("GET " + path
                + " HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nAccept-Encoding: gzip, br\r\nConnection: close\r\n\r\n");
        assertTrue(packed.contains("Content-Encoding: gzip"), packed.substring(0, 500));
        assertTrue(packed.contains("Vary: Accept-Encoding"), packed.substring(0, 500));
        assertTrue(packed.length() < 60_000, "packed " + packed.length());
    }

    @Test
    void each_file_in_the_list_is_served_and_nothing_beside_it() {
        int served = 0;
        for (String path : assets.paths()) {
            assertEquals(200, client.get(path).status(), path);
            served++;
        }
        assertTrue(served > 20, "only " + served);
        assertEquals(404, client.get("/lib/lit-html/3.2.0/README.md").status());
        assertEquals(404, client.get("/page/" + "0".repeat(12) + "/small.js").status());
    }

    @Test
    void the_head_of_a_file_can_be_asked_for_alone() {
        var head = client.send(client.request("/").method("HEAD", java.net.http.HttpRequest.BodyPublishers.noBody()));
        assertEquals(200, head.status());
        assertEquals("", head.body());
    }
}

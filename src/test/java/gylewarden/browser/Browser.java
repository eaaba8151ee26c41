package gylewarden.browser;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import java.util.logging.Level;
import org.openqa.selenium.By;
import org.openqa.selenium.InvalidElementStateException;
import org.openqa.selenium.Keys;
import org.openqa.selenium.NoSuchElementException;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;

/**
 * Debian's Chromium without a screen and with a fresh profile. Remembers what it asked for and what it complained of.
 * Closing ends it.
 */
public final class Browser implements AutoCloseable {
    private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
    private static final Path DRIVER = Path.of("/usr/bin/chromedriver");

    /** Where pictures are kept for people to look at. */
    private static final Path PICTURES = Path.of("target", "pictures");

    private static final Duration PATIENCE = Duration.ofSeconds(90);
    private static final long EACH_MILLIS = 50;

    private static final ObjectMapper JSON = new ObjectMapper();

    private final ChromeDriver driver;
    private final List<String> asked = new ArrayList<>();
    private final Map<String, Long> bytes = new HashMap<>();
    private final List<String> complaints = new ArrayList<>();

    private Browser(ChromeDriver driver) {
        this.driver = driver;
    }

    /** Starts it, or ends the test as skipped where there is none; on the machine that tests every change that is a failure. */
    public static Browser start(Path folder) {
        for (Path needed : List.of(CHROMIUM, DRIVER)) if (!Files.isExecutable(needed)) missing(needed);
        var service = new ChromeDriverService.Builder()
                .usingDriverExecutable(DRIVER.toFile())
                .usingAnyFreePort()
                .withLogFile(folder.resolve("driver.log").toFile())
                .build();
        return new Browser(new ChromeDriver(service, options(folder.resolve("profile"))));
    }

    private static void missing(Path needed) {
        String reason = "there is no " + needed + ": apt-get install chromium chromium-driver";
        if ("true".equals(System.getenv("CI"))) fail(reason);
        abort(reason);
    }

    private static ChromeOptions options(Path profile) {
        var options = new ChromeOptions();
        options.setBinary(CHROMIUM.toFile());
        options.addArguments(
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-dev-shm-usage",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--no-first-run",
                "--hide-scrollbars",
                "--window-size=1280,1000",
                "--user-data-dir=" + profile);
        var logs = new LoggingPreferences();
        logs.enable(LogType.PERFORMANCE, Level.ALL);
        logs.enable(LogType.BROWSER, Level.ALL);
        options.setCapability("goog:loggingPrefs", logs);
        return options;
    }

    public void open(String address) {
        driver.get(address);
    }

    /** A telephone's width, CSS pixels. */
    public void beNarrow() {
        driver.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", 360, "height", 740, "deviceScaleFactor", 2, "mobile", true));
    }

    /** Waits until what can be read on the page holds these words. */
    public void shows(String words) {
        until("\"" + words + "\" on the page", () -> words().contains(words));
    }

    /** Waits until this holds, up to a deadline that is generous for a slow machine. */
    public void until(String what, BooleanSupplier condition) {
        long end = System.nanoTime() + PATIENCE.toNanos();
        while (!condition.getAsBoolean()) {
            if (System.nanoTime() - end > 0)
                throw new AssertionError("not within " + PATIENCE.toSeconds() + " s: " + what + "\n" + words());
            pause();
        }
    }

    private static void pause() {
        try {
            Thread.sleep(EACH_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError("interrupted while waiting", e);
        }
    }

    /** What can be read on the page; spaces that do not break are plain ones here. */
    public String words() {
        return String.valueOf(driver.executeScript("return document.body.innerText"))
                .replace('\u00a0', ' ');
    }

    /** The words of the first element that a selector of CSS finds; empty if there is none. */
    public String words(String selector) {
        Object found = driver.executeScript("return document.querySelector(arguments[0])?.innerText ?? ''", selector);
        return String.valueOf(found).replace('\u00a0', ' ');
    }

    public long count(String selector) {
        return (Long) driver.executeScript("return document.querySelectorAll(arguments[0]).length", selector);
    }

    public Object evaluate(String script) {
        return driver.executeScript(script);
    }

    /** What a promise comes to. */
    public Object promised(String expression) {
        return driver.executeAsyncScript(
                "const done = arguments[0]; (" + expression + ").then(done, failure => done('failed: ' + failure))");
    }

    /** Types into the field with this label in place of what it holds. */
    public void type(String label, String text) {
        patiently("type into \"" + label + "\"", () -> {
            WebElement field = driver.findElement(labelled(label, "input"));
            field.sendKeys(Keys.chord(Keys.CONTROL, "a"), text);
        });
    }

    public void tick(String label) {
        patiently(
                "tick \"" + label + "\"",
                () -> driver.findElement(labelled(label, "input")).click());
    }

    /** Presses the button, or follows the link, with these words. */
    public void press(String words) {
        String path = "//*[self::button or self::a or self::summary][normalize-space(.)='" + words + "']";
        patiently("press \"" + words + "\"", () -> {
            WebElement found = driver.findElement(By.xpath(path));
            if (!found.isEnabled()) throw new InvalidElementStateException(words + " is off");
            driver.executeScript("arguments[0].scrollIntoView({block: 'center'})", found);
            found.click();
        });
    }

    private static By labelled(String label, String kind) {
        return By.xpath("//label[contains(normalize-space(.), '" + label + "')]//" + kind);
    }

    /** The page draws itself anew while somebody aims: another try may hit. */
    private void patiently(String what, Runnable doing) {
        until(what, () -> {
            try {
                doing.run();
                return true;
            } catch (StaleElementReferenceException | NoSuchElementException | InvalidElementStateException notYet) {
                return false;
            }
        });
    }

    /** Every address that was asked for since the browser was started. */
    public List<String> asked() {
        readLog();
        return List.copyOf(asked);
    }

    /** What came over the wire since the browser was started, with heads and as it was packed. */
    public long bytes() {
        readLog();
        return bytes.values().stream().mapToLong(Long::longValue).sum();
    }

    /** Mistakes of scripts, and what the page's security policy has refused. */
    public List<String> complaints() {
        for (LogEntry entry : driver.manage().logs().get(LogType.BROWSER))
            if (entry.getLevel().intValue() >= Level.WARNING.intValue()) complaints.add(entry.getMessage());
        return List.copyOf(complaints);
    }

    private void readLog() {
        for (LogEntry entry : driver.manage().logs().get(LogType.PERFORMANCE)) {
            JsonNode message = parsed(entry.getMessage()).path("message");
            JsonNode told = message.path("params");
            String id = told.path("requestId").asText();
            long length = told.path("encodedDataLength").asLong();
            switch (message.path("method").asText()) {
                case "Network.requestWillBeSent" ->
                    willBeSent(id, told.path("request").path("url").asText());
                case "Network.dataReceived" -> bytes.computeIfPresent(id, (same, before) -> before + length);
                case "Network.loadingFinished" -> bytes.computeIfPresent(id, (same, before) -> length);
                default -> {}
            }
        }
    }

    /** The browser's own first page comes out of the browser itself and is not counted. */
    private void willBeSent(String id, String address) {
        if (address.startsWith("chrome:")) return;
        asked.add(address);
        bytes.put(id, 0L);
    }

    private static JsonNode parsed(String text) {
        try {
            return JSON.readTree(text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Keeps a picture of the whole page. */
    public Path picture(String name) throws IOException {
        Map<String, Object> shot = driver.executeCdpCommand(
                "Page.captureScreenshot", Map.of("format", "png", "captureBeyondViewport", true));
        byte[] png = Base64.getDecoder().decode(String.valueOf(shot.get("data")));
        return Files.write(Files.createDirectories(PICTURES).resolve(name + ".png"), png);
    }

    @Override
    public void close() {
        driver.quit();
    }
}

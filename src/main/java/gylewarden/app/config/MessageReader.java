package gylewarden.app.config;

import gylewarden.message.BrokerAlarms;
import gylewarden.message.MailServer;
import gylewarden.message.MailServer.Login;
import gylewarden.message.MailServer.Security;
import gylewarden.message.Template;
import gylewarden.message.Webhook;
import gylewarden.units.Range;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.http.HttpRequest;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** Reads a {@code [message.NAME]}. */
final class MessageReader {
    private static final List<String> KINDS = List.of("email", "webhook", "relay", "heartbeat");
    private static final Pattern NAME = Pattern.compile("[a-z0-9-]{1,32}");
    /** As much of RFC 5322 as tells an address from a slip. */
    private static final Pattern MAIL_ADDRESS = Pattern.compile("[^\\s@<>,]+@[^\\s@<>,]+");

    private static final Range<Long> PORT = Range.of(1L, 65_535L);
    private static final Range<Duration> EVERY = Range.of(Duration.ofMinutes(1), Duration.ofHours(1));

    private MessageReader() {}

    static Optional<MessageConfig> read(String name, Table table) {
        if (!NAME.matcher(name).matches())
            table.mistake("its name may have small letters, digits and hyphens only, at most 32: [message.phone]");
        if (name.equals(BrokerAlarms.NAME)) table.mistake("is the name of the broker's own: give it another");
        table.require("kind", "write kind = \"email\", \"webhook\", \"relay\" or \"heartbeat\"");
        Optional<String> kind = table.oneOf("kind", KINDS);
        Optional<MessageConfig.Way> way = kind.flatMap(word -> switch (word) {
            case "email" -> mail(table);
            case "webhook" -> hook(table);
            case "relay" -> lamp(table);
            default -> heartbeat(table);
        });
        Kinds.onlyFor(table, "email", kind, List.of("host", "port", "security", "user", "password", "sender", "to"));
        Kinds.onlyFor(table, "webhook", kind, List.of("method", "headers", "body"));
        Kinds.onlyFor(table, "relay", kind, List.of("relay"));
        Kinds.onlyFor(table, "heartbeat", kind, List.of("every"));
        table.know("address");
        if (table.has("address")
                && kind.filter(word -> word.equals("email") || word.equals("relay"))
                        .isPresent())
            table.mistake("address", "belongs to kind = \"webhook\" and \"heartbeat\", not to \"" + kind.get() + '"');
        table.finish();
        return way.filter(found -> table.isSound()).map(found -> new MessageConfig(name, found));
    }

    private static Optional<MessageConfig.Way> mail(Table table) {
        table.require("host", "the mail server, for example host = \"mail.example.org\"");
        table.require("sender", "the address that the mail comes from, for example sender = \"warden@example.org\"");
        table.require("to", "who gets it, for example to = [\"brewer@example.org\"]");
        Optional<String> host = table.text("host");
        Security security = table.oneOf("security", List.of("tls", "starttls", "none"))
                .map(word -> Security.valueOf(word.toUpperCase(Locale.ROOT)))
                .orElse(Security.TLS);
        int port = table.whole("port", PORT).map(Long::intValue).orElse(standardPort(security));
        Optional<String> user = table.text("user");
        Optional<String> password = table.text("password");
        if (user.isPresent() && !table.has("password")) table.mistake("user", "needs a password beside it");
        if (password.isPresent() && !table.has("user")) table.mistake("password", "needs a user beside it");
        boolean inTheClear = security == Security.NONE;
        boolean here = host.filter(name -> name.equals("localhost") || name.startsWith("127."))
                .isPresent();
        if (inTheClear && password.isPresent() && !here)
            table.mistake(
                    "security",
                    "a password is not sent in the clear: write \"tls\" or \"starttls\", or leave out user and password");
        Optional<String> sender = table.text("sender");
        if (sender.filter(address -> !MAIL_ADDRESS.matcher(address).matches()).isPresent())
            table.mistake("sender", "is no address: \"warden@example.org\"");
        Optional<List<String>> to = table.texts("to");
        if (to.filter(all -> all.isEmpty()
                        || !all.stream()
                                .allMatch(each -> MAIL_ADDRESS.matcher(each).matches()))
                .isPresent()) table.mistake("to", "needs addresses: [\"brewer@example.org\"]");
        if (host.isEmpty() || sender.isEmpty() || to.isEmpty()) return Optional.empty();
        Optional<Login> login = user.flatMap(name -> password.map(secret -> new Login(name, secret)));
        return Optional.of(new MessageConfig.Mail(
                new MailServer(host.get(), port, security, login, sender.get(), to.get(), Optional.empty())));
    }

    /** RFC 8314 for submission, RFC 5321 for a server on the same board. */
    private static int standardPort(Security security) {
        return switch (security) {
            case TLS -> 465;
            case STARTTLS -> 587;
            case NONE -> 25;
        };
    }

    private static Optional<MessageConfig.Way> hook(Table table) {
        Optional<URI> address = address(table);
        String method = table.oneOf("method", List.of("POST", "PUT", "GET")).orElse("POST");
        Map<String, Template> headers = new LinkedHashMap<>();
        table.textsByName("headers").forEach((name, value) -> {
            var template = new Template(value);
            if (!isHeader(name)) table.mistake("headers", "the header " + name + " can't be set");
            known(table, "headers", template);
            headers.put(name, template);
        });
        Template body = table.text("body").map(Template::new).orElse(Webhook.STANDARD_BODY);
        known(table, "body", body);
        return address.map(where -> new MessageConfig.Hook(new Webhook.Call(where, method, headers, body)));
    }

    private static void known(Table table, String key, Template template) {
        for (String name : template.unknown())
            table.mistake(key, "there is no {" + name + "}; there are {" + String.join("}, {", Template.PLACES) + "}");
    }

    /** The library knows which ones it keeps for itself. */
    private static boolean isHeader(String name) {
        try {
            HttpRequest.Builder unused = HttpRequest.newBuilder().header(name, "x");
            return true;
        } catch (IllegalArgumentException reserved) {
            return false;
        }
    }

    private static Optional<URI> address(Table table) {
        table.require("address", "for example address = \"https://example.org/alarms\"");
        return table.text("address").flatMap(text -> {
            try {
                URI address = new URI(text);
                boolean web = "https".equals(address.getScheme()) || "http".equals(address.getScheme());
                if (web && address.getHost() != null && address.getRawUserInfo() == null) return Optional.of(address);
            } catch (URISyntaxException none) {
                // told below, as for one that is none of the web
            }
            table.mistake(
                    "address", "needs an address of the web without user and password: \"https://example.org/alarms\"");
            return Optional.empty();
        });
    }

    private static Optional<MessageConfig.Way> lamp(Table table) {
        table.require("relay", "the id of a [[relay]] that no chamber uses, for example relay = \"lamp\"");
        return table.text("relay").map(MessageConfig.Lamp::new);
    }

    private static Optional<MessageConfig.Way> heartbeat(Table table) {
        Optional<URI> address = address(table);
        Duration every = table.time("every", EVERY, Duration.ofMinutes(5)).orElse(Duration.ofMinutes(5));
        return address.map(where -> new MessageConfig.Heartbeat(where, every));
    }
}

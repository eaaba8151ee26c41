package gylewarden.message;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import gylewarden.journal.Letter;
import jakarta.mail.internet.MimeMessage;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javax.net.ssl.SSLSocketFactory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Against a real SMTP server in this process. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class EmailTest {
    private static final String KEYS = "greenmail.tls.keystore.file";
    private static final String KEYS_PASSWORD = "greenmail.tls.keystore.password";

    @TempDir
    private Path folder;

    private Optional<GreenMail> server = Optional.empty();

    @AfterEach
    void stop() {
        server.ifPresent(GreenMail::stop);
        System.clearProperty(KEYS);
        System.clearProperty(KEYS_PASSWORD);
    }

    @Test
    void a_letter_arrives_with_its_words_and_tells_what_it_belongs_to() throws Exception {
        Letter letter = Letters.high();
        assertEquals(
                new Delivery.Arrived(), email(plain(), MailServer.Security.NONE).carry(letter));
        MimeMessage mail = received()[0];
        assertEquals(letter.subject(), mail.getSubject());
        assertEquals(letter.text(), ((String) mail.getContent()).strip().replace("\r\n", "\n"));
        assertEquals("<" + letter.id() + "@cellar.example>", mail.getMessageID());
        assertEquals("<" + Letters.ALARM + "@cellar.example>", mail.getHeader("References")[0]);
        assertEquals("auto-generated", mail.getHeader("Auto-Submitted")[0]);
        assertEquals("high", mail.getHeader("Importance")[0]);
        assertEquals(letter.made(), mail.getSentDate().toInstant());
    }

    @Test
    void a_letter_sent_again_is_the_same_letter() throws Exception {
        Letter letter = Letters.high();
        Email email = email(plain(), MailServer.Security.NONE);
        email.carry(letter);
        email.carry(letter);
        assertEquals(received()[0].getMessageID(), received()[1].getMessageID());
    }

    @Test
    void it_reaches_everybody_to_whom_it_is_addressed() {
        Email email = new Email(
                "mail",
                new MailServer(
                        "127.0.0.1",
                        plain().getSmtp().getPort(),
                        MailServer.Security.NONE,
                        Optional.empty(),
                        "warden@cellar.example",
                        List.of("brewer@cellar.example", "neighbour@next-door.example"),
                        Optional.empty()));
        assertInstanceOf(Delivery.Arrived.class, email.carry(Letters.high()));
        assertEquals(2, received().length);
    }

    @Test
    void a_wrong_password_is_said_and_nothing_arrives() {
        GreenMail mail = plain();
        mail.setUser("warden@cellar.example", "warden", "right");
        Email email = new Email(
                "mail",
                new MailServer(
                        "127.0.0.1",
                        mail.getSmtp().getPort(),
                        MailServer.Security.NONE,
                        Optional.of(new MailServer.Login("warden", "wrong")),
                        "warden@cellar.example",
                        List.of("brewer@cellar.example"),
                        Optional.empty()));
        String why = why(email.carry(Letters.high()));
        assertTrue(why.contains("does not accept the user and password of [message.mail]"), why);
        assertFalse(why.contains("wrong"), "a password in " + why);
        assertEquals(0, received().length);
    }

    @Test
    void with_tls_it_arrives_where_the_certificate_is_believed() throws Exception {
        Certificate certificate = Certificate.forLocalhost(folder);
        Email email = email(tls(certificate), MailServer.Security.TLS, Optional.of(certificate.believed()));
        assertEquals(new Delivery.Arrived(), email.carry(Letters.high()));
    }

    @Test
    void a_certificate_that_nobody_vouches_for_is_refused_and_nothing_is_sent() throws Exception {
        Email email = email(tls(Certificate.forLocalhost(folder)), MailServer.Security.TLS, Optional.empty());
        String why = why(email.carry(Letters.high()));
        assertTrue(why.contains("shows no certificate that can be believed, so nothing was sent"), why);
        assertEquals(0, received().length);
    }

    @Test
    void without_the_tls_that_was_asked_for_nothing_is_sent() {
        String why = why(email(plain(), MailServer.Security.STARTTLS).carry(Letters.high()));
        assertTrue(why.contains("STARTTLS"), why);
        assertEquals(0, received().length);
    }

    @Test
    void a_server_that_is_away_is_named() throws IOException {
        int port;
        try (var socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = socket.getLocalPort();
        }
        String why = why(email(port, MailServer.Security.NONE, Optional.empty()).carry(Letters.high()));
        assertTrue(why.startsWith("The mail server 127.0.0.1:" + port + " could not take it: "), why);
    }

    @Test
    void a_server_that_hangs_up_in_the_middle_is_no_bug_of_ours() throws Exception {
        try (var socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            var rude = new Thread(() -> {
                try {
                    socket.accept().close();
                } catch (IOException e) {
                    // The test is over.
                }
            });
            rude.start();
            assertInstanceOf(
                    Delivery.Failed.class,
                    email(socket.getLocalPort(), MailServer.Security.NONE, Optional.empty())
                            .carry(Letters.high()));
            rude.join();
        }
    }

    private GreenMail plain() {
        return started(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    }

    private GreenMail tls(Certificate certificate) {
        System.setProperty(KEYS, certificate.store().toString());
        System.setProperty(KEYS_PASSWORD, Certificate.PASSWORD);
        return started(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTPS));
    }

    private GreenMail started(ServerSetup setup) {
        GreenMail mail = new GreenMail(setup);
        mail.start();
        server = Optional.of(mail);
        return mail;
    }

    private MimeMessage[] received() {
        return server.orElseThrow().getReceivedMessages();
    }

    private static Email email(GreenMail mail, MailServer.Security security) {
        return email(mail, security, Optional.empty());
    }

    private static Email email(GreenMail mail, MailServer.Security security, Optional<SSLSocketFactory> trust) {
        int port = security == MailServer.Security.TLS
                ? mail.getSmtps().getPort()
                : mail.getSmtp().getPort();
        return email(port, security, trust);
    }

    private static Email email(int port, MailServer.Security security, Optional<SSLSocketFactory> trust) {
        return new Email(
                "mail",
                new MailServer(
                        "127.0.0.1",
                        port,
                        security,
                        Optional.empty(),
                        "warden@cellar.example",
                        List.of("brewer@cellar.example"),
                        trust));
    }

    private static String why(Delivery delivery) {
        return assertInstanceOf(Delivery.Failed.class, delivery).why();
    }
}

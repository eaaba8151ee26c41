package gylewarden.message;

import gylewarden.control.Condition.Priority;
import gylewarden.journal.Letter;
import jakarta.mail.AuthenticationFailedException;
import jakarta.mail.Message;
import jakarta.mail.MessagingException;
import jakarta.mail.SendFailedException;
import jakarta.mail.Session;
import jakarta.mail.Transport;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeMessage;
import java.nio.charset.StandardCharsets;
import java.util.Date;
import java.util.Objects;
import java.util.Properties;
import java.util.UUID;
import java.util.stream.Stream;
import javax.net.ssl.SSLException;

/**
 * E-mail by SMTP (RFC 5321). A letter sent again has the same Message-ID (RFC 5322), so that a mailbox shows it once; those about one
 * alarm refer to it and stand together.
 */
public final class Email implements Channel {
    private static final String PATIENCE_MS = "10000";

    private final String name;
    private final MailServer server;
    private final Session session;

    public Email(String name, MailServer server) {
        this.name = name;
        this.server = server;
        this.session = Session.getInstance(properties(server));
    }

    private static Properties properties(MailServer server) {
        var properties = new Properties();
        properties.put("mail.smtp.host", server.host());
        properties.put("mail.smtp.port", Integer.toString(server.port()));
        properties.put("mail.smtp.connectiontimeout", PATIENCE_MS);
        properties.put("mail.smtp.timeout", PATIENCE_MS);
        properties.put("mail.smtp.writetimeout", PATIENCE_MS);
        properties.put("mail.smtp.auth", server.login().isPresent());
        // The board's own name is nobody's business, and looking it up can hang without a name server.
        properties.put("mail.smtp.localhost", "[127.0.0.1]");
        properties.put("mail.smtp.ssl.enable", server.security() == MailServer.Security.TLS);
        properties.put("mail.smtp.starttls.enable", server.security() == MailServer.Security.STARTTLS);
        properties.put("mail.smtp.starttls.required", server.security() == MailServer.Security.STARTTLS);
        properties.put("mail.smtp.ssl.checkserveridentity", "true");
        server.trust().ifPresent(trust -> properties.put("mail.smtp.ssl.socketFactory", trust));
        return properties;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public Delivery carry(Letter letter) {
        try {
            MimeMessage mail = mail(letter);
            try (Transport transport = session.getTransport("smtp")) {
                if (server.login().isPresent())
                    transport.connect(
                            server.login().get().user(), server.login().get().password());
                else transport.connect();
                transport.sendMessage(mail, mail.getAllRecipients());
            }
            return new Delivery.Arrived();
        } catch (AuthenticationFailedException e) {
            return failed("does not accept the user and password of [message." + name + "]: " + said(e));
        } catch (SendFailedException e) {
            return failed("does not take this mail from " + server.from() + " to " + String.join(", ", server.to())
                    + ": " + said(e));
        } catch (MessagingException e) {
            if (causes(e).anyMatch(SSLException.class::isInstance))
                return failed("shows no certificate that can be believed, so nothing was sent: " + said(e));
            return failed("could not take it: " + said(e));
        }
    }

    private Delivery failed(String what) {
        String end = what.endsWith(".") ? "" : ".";
        return Delivery.Failed.because("The mail server " + server.host() + ":" + server.port() + " " + what + end);
    }

    private MimeMessage mail(Letter letter) throws MessagingException {
        var mail = new Named(session, id(letter.id()));
        mail.setFrom(new InternetAddress(server.from(), true));
        for (String to : server.to()) mail.addRecipient(Message.RecipientType.TO, new InternetAddress(to, true));
        mail.setSubject(letter.subject(), StandardCharsets.UTF_8.name());
        mail.setSentDate(Date.from(letter.made()));
        // RFC 3834: nobody's holiday answer comes back to it.
        mail.setHeader("Auto-Submitted", "auto-generated");
        if (letter.priority() == Priority.HIGH) mail.setHeader("Importance", "high");
        if (letter.alarm().isPresent()) {
            String thread = id(letter.alarm().get());
            mail.setHeader("In-Reply-To", thread);
            mail.setHeader("References", thread);
        }
        mail.setText(letter.text(), StandardCharsets.UTF_8.name());
        return mail;
    }

    private String id(UUID id) {
        String domain = server.from().substring(server.from().lastIndexOf('@') + 1);
        return "<" + id + "@" + domain + ">";
    }

    /** From the outermost to the root; the library has two ways of saying what came before. */
    private static Stream<Throwable> causes(MessagingException e) {
        return Stream.iterate((Throwable) e, Objects::nonNull, Email::before);
    }

    private static Throwable before(Throwable thrown) {
        boolean ofTheLibrary = thrown.getCause() == null && thrown instanceof MessagingException;
        return ofTheLibrary ? ((MessagingException) thrown).getNextException() : thrown.getCause();
    }

    /** What the server or the network said, on one line. */
    private static String said(MessagingException e) {
        Throwable root = causes(e).reduce(e, (outer, inner) -> inner);
        String message = root.getMessage() == null ? root.getClass().getSimpleName() : root.getMessage();
        return message.strip().replaceAll("\\s+", " ");
    }

    /** With an id of ours; the library gives it a new one each time else. */
    private static final class Named extends MimeMessage {
        private final String id;

        Named(Session session, String id) {
            super(session);
            this.id = id;
        }

        @Override
        protected void updateMessageID() throws MessagingException {
            setHeader("Message-ID", id);
        }
    }
}

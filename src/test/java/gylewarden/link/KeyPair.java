package gylewarden.link;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.Base64;
import java.util.List;

/**
 * A certificate that vouches for itself, made by the JDK's keytool, and its key, both in PEM as a broker reads them.
 *
 * @param certificate its own authority
 */
record KeyPair(Path certificate, Path key) {
    private static final String PASSWORD = "only-for-tests";

    /**
     * @param names such as {@code ip:127.0.0.1}
     * @param start as keytool takes it: {@code -10d} is ten days ago
     * @param days for which it is valid
     */
    static KeyPair make(Path folder, String names, String start, int days)
            throws IOException, InterruptedException, GeneralSecurityException {
        Path store = folder.resolve("keys.p12");
        String keytool =
                Path.of(System.getProperty("java.home"), "bin", "keytool").toString();
        Process made = new ProcessBuilder(List.of(
                        keytool,
                        "-genkeypair",
                        "-alias",
                        "broker",
                        "-keyalg",
                        "EC",
                        "-dname",
                        "CN=broker",
                        "-ext",
                        "SAN=" + names,
                        "-startdate",
                        start,
                        "-validity",
                        String.valueOf(days),
                        "-storetype",
                        "PKCS12",
                        "-keystore",
                        store.toString(),
                        "-storepass",
                        PASSWORD))
                .redirectErrorStream(true)
                .start();
        String said = new String(made.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        if (made.waitFor() != 0) throw new IOException(said);
        KeyStore keys = KeyStore.getInstance("PKCS12");
        try (InputStream in = Files.newInputStream(store)) {
            keys.load(in, PASSWORD.toCharArray());
        }
        return new KeyPair(
                pem(
                        folder.resolve("broker.crt"),
                        "CERTIFICATE",
                        keys.getCertificate("broker").getEncoded()),
                pem(
                        folder.resolve("broker.key"),
                        "PRIVATE KEY",
                        keys.getKey("broker", PASSWORD.toCharArray()).getEncoded()));
    }

    List<String> lines() {
        return List.of("allow_anonymous true", "certfile " + certificate, "keyfile " + key);
    }

    private static Path pem(Path file, String what, byte[] bytes) throws IOException {
        String text = Base64.getMimeEncoder(64, new byte[] {'\n'}).encodeToString(bytes);
        return Files.writeString(file, "-----BEGIN " + what + "-----\n" + text + "\n-----END " + what + "-----\n");
    }
}

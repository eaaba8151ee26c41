package gylewarden.app;

/** The command line. */
public final class Main {
    private Main() {}

    public static void main(String[] arguments) {
        System.exit(2);
    }
}

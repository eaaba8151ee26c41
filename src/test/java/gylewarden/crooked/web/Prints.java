package gylewarden.crooked.web;

final class Prints {
    private Prints() {}

    static void print() {
        System.out.println();
    }
}

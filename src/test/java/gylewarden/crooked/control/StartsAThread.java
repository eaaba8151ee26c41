package gylewarden.crooked.control;

final class StartsAThread {
    private StartsAThread() {}

    static Thread start(Runnable work) {
        return new Thread(work);
    }
}

package gylewarden.crooked.control;

import java.util.Random;

record ThrowsDice(int seed) {
    static int unseeded() {
        return new Random().nextInt();
    }

    int seeded() {
        return new Random(seed).nextInt();
    }
}

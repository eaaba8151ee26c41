package gylewarden.crooked.relay;

public record SimulatedRelay(int line) implements Relay {}

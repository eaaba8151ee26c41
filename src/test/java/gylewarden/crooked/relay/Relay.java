package gylewarden.crooked.relay;

public interface Relay {}

package gylewarden.crooked.attic;

record Stray(int nothing) {}

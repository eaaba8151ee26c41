package gylewarden.crooked.control;

import java.nio.file.Path;

record WritesAFile(Path path) {}

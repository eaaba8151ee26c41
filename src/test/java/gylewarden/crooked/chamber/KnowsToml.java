package gylewarden.crooked.chamber;

import org.tomlj.TomlTable;

record KnowsToml(TomlTable table) {}

"""The command line: the same operations as the screens, scriptable, without Textual or Rich.

`catalogue` names the commands, `typed` reads what was typed after `crewboard`, `run` carries it
out, `output` speaks. Each command's own module is imported only when it is called.
"""

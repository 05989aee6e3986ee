"""Editing the plan from the screens: forms over `Workbench.change`."""

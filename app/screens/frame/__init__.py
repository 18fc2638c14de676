"""The frame of the window: menus, find strip, dividers, the trail of pages, help in the margin."""

"""The menus, a module each, and with them every shortcut of the window."""

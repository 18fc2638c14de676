"""Pictures of answers on a screen: a painter for every kind of panel, and the widget that stacks them."""

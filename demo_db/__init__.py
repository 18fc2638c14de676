"""An invented shop with three years of work in it, built by doing what people do, so that it cannot lie."""

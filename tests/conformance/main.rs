//! Holds the whole to the outside world.

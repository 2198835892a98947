//! What is said of the ground, against closed figures.

//! Nothing to use: this crate holds the tests of the house style, in `tests/`.

//! Pipe: the catalogue of standard sizes and grades, and pipe the user defines.

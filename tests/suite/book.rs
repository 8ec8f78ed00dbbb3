//! Tests of: book.

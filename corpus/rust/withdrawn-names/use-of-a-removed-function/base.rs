use std::fs::read_to_string;

fn rows(path: &str) -> Vec<String> {
    parse(&read_to_string(path).unwrap())
}

fn high(path: &str) -> usize {
    rows(path).len()
}

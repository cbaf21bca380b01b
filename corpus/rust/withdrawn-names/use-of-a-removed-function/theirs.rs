use std::fs::read_to_string;

fn rows(path: &str) -> Vec<String> {
    parse(&read_to_string(path).unwrap())
}

fn high(path: &str) -> u64 {
    rows(path).len()
}

fn first(path: &str) -> Option<String> {
    rows(path).into_iter().next()
}

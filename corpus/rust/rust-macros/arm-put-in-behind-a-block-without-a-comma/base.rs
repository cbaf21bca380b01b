watch! {
    level = quay.next() => {
        show(level);
    },
    level = pier.next() => {
        show(level);
    }
}

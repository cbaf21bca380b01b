watch! {
    depth = quay.next() => {
        show(depth);
    },
    depth = pier.next() => {
        show(depth);
    }
}

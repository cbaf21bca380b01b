fn tokens() -> Tokens {
    quote! {
        fn add(levels: &mut Levels) {
            while open() {
                let first = levels.get(&<Self as #tides::Level>::name()).is_none(now);
                #tides::add_level(<Self as #tides::Level>::name(), level, levels);
                if first {
                    #more
                }
            }
        }
    }
}

fn tokens() -> Tokens {
    quote! {
        fn add(levels: &mut Levels) {
            let first = levels.get(&<Self as #tides::Surge>::name()).is_none();
            #tides::add_level(<Self as #tides::Level>::name(), level, sorted(levels));
            if first {
                #more
            }
        }
    }
}

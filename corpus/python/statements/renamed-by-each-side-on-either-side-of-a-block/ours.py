def test_context(app):
    def check():
        app.assert_true(not app.request)
        app.assert_true(not app.current)
        with app.context():
            app.assert_true(app.request)
        app.assert_(not app.request)
        return 42

    run(check)

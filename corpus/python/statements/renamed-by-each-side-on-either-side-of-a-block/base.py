def test_context(app):
    def check():
        app.assert_(not app.request)
        app.assert_(not app.current)
        with app.context():
            app.assert_(app.request)
        app.assert_(not app.request)
        return 42

    run(check)

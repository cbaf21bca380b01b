def main():
    serve(make_app(debug=False, theme="night"), port=8080)

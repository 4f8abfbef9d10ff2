import os

# Reports are shown in Qt's text document too; that needs no screen.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

#pragma once

#include <QDialog>

class QLineEdit;

namespace stillroom::ui {

// One line asked for: a title, what it is about, the line, and the one act.
class LineDialog : public QDialog {
    Q_OBJECT

  public:
    struct Ask {
        QString title;
        QString about;
        QString label; // with its mnemonic
        QString value;
        QString example;
        QString act; // "Set aside"
    };
    explicit LineDialog(const Ask& ask, QWidget* parent = nullptr);
    QLineEdit& line() { return *m_line; }

  Q_SIGNALS:
    void answered(const QString& text);

  private:
    QLineEdit* m_line;
};

} // namespace stillroom::ui

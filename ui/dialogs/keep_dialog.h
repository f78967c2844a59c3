#pragma once

#include <QDialog>

class QLineEdit;

namespace stillroom::ui {

class DraftSession;

// Fixing a revision asks one thing: why. What changed is said and proposed as the reason.
class KeepDialog : public QDialog {
    Q_OBJECT

  public:
    explicit KeepDialog(DraftSession& session, QWidget* parent = nullptr);
    QLineEdit& reason() { return *m_reason; }

  Q_SIGNALS:
    void keepAsked(const QString& reason);

  private:
    QLineEdit* m_reason;
};

} // namespace stillroom::ui

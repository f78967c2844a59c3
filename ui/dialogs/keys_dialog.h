#pragma once

#include <QDialog>

namespace stillroom::ui {

// Every action and its key on one page, made from the list of actions.
class KeysDialog : public QDialog {
    Q_OBJECT

  public:
    explicit KeysDialog(QWidget* parent = nullptr);
    // The same page as text, tab-separated.
    static QString asText();
};

} // namespace stillroom::ui

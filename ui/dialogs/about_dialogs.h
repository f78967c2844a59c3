#pragma once

#include <QDialog>

namespace stillroom::ui {

class WorkbookSession;

// What is computed and from which sources, and what it does not know.
class AboutDialog : public QDialog {
    Q_OBJECT

  public:
    explicit AboutDialog(QWidget* parent = nullptr);
};

// Every standing note in full, and whose rules come first.
class CautionsDialog : public QDialog {
    Q_OBJECT

  public:
    explicit CautionsDialog(QWidget* parent = nullptr);
};

} // namespace stillroom::ui

#pragma once

#include <QMainWindow>

namespace stillroom::ui {

class MainWindow : public QMainWindow {
    Q_OBJECT

  public:
    explicit MainWindow(QWidget* parent = nullptr);
};

} // namespace stillroom::ui

#pragma once

#include <QListView>

namespace stillroom::ui {

class ResultsModel;

// What was found: the drink, where the words stand in it, and its strength.
class ResultsList : public QListView {
    Q_OBJECT

  public:
    explicit ResultsList(QWidget* parent = nullptr);
    void goTo(int row);

  Q_SIGNALS:
    void leftUp(); // the arrow up on the first row

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
};

} // namespace stillroom::ui

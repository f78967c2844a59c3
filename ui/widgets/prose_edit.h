#pragma once

#include "ui/theme/tokens.h"

#include <QMimeData>
#include <QPlainTextEdit>

namespace stillroom::ui {

// A sentence or a page a person wrote, edited where it stands. As tall as its text; Tab goes on. A spec
// field leaves undo to the draft; long notes keep their own.
class ProseEdit : public QPlainTextEdit {
    Q_OBJECT

  public:
    enum class Undo : unsigned char { Drafts, Own };
    ProseEdit(Type type, Undo undo, QWidget* parent = nullptr);
    void show(const QString& text);
    void setEnterLeaves(bool leaves) { m_enterLeaves = leaves; } // for fields of one sentence
    // A paste that would make the text longer is refused whole: nothing is cut off unseen.
    void setTakesImages(bool takes) { m_takesImages = takes; }
    void setMostCharacters(qsizetype most) { m_most = most; }
    using QPlainTextEdit::show;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return {40, sizeHint().height()}; }

  Q_SIGNALS:
    void entered();
    void edited(const QString& text); // by the person, not by show()
    void finished();
    void imagePasted(const QMimeData& source); // instead of a text
    void pasteRefused(qsizetype characters);   // as long as it would have become

  protected:
    bool event(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool canInsertFromMimeData(const QMimeData* source) const override;
    void insertFromMimeData(const QMimeData* source) override;

  private:
    void dress();
    void fit();

    Type m_type;
    Undo m_undo;
    qsizetype m_most = 0; // 0: no bound
    bool m_takesImages = false;
    bool m_enterLeaves = true;
    bool m_showing = false;
};

} // namespace stillroom::ui

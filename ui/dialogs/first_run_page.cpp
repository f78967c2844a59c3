#include "ui/dialogs/first_run_page.h"

#include "ui/actions/actions.h"
#include "ui/delegates/paint_text.h"
#include "ui/theme/icons.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"
#include "ui/widgets/key_hint.h"

#include <QEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QShortcut>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

// A way to begin: icon, what it is, one sentence, its key. A whole row to press.
class Door : public QPushButton {
  public:
    Door(QString iconName, QString title, QString words, QString key, QWidget* parent)
        : QPushButton(parent),
          m_icon(std::move(iconName)),
          m_title(std::move(title)),
          m_words(std::move(words)),
          m_key(std::move(key)) {
        setAccessibleName(m_title);
        setAccessibleDescription(m_words);
        setFlat(true);
        setCursor(Qt::PointingHandCursor);
    }
    QSize sizeHint() const override { return {Theme::current().pxInt(380), Theme::current().pxInt(86)}; }

  protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        const Look& look = Theme::current().look();
        painter.fillRect(rect(), look.color(underMouse() ? Token::Well : Token::Page));
        painter.fillRect(QRectF(0, 0, width(), look.px(1)), look.color(Token::Rule));
        const double side = look.px(26);
        paintIcon(painter, QRectF(look.px(20), look.px(20), side, side), m_icon, look.color(Token::Ink2));
        QFont title = look.font(Type::Title);
        title.setPixelSize(look.pxInt(19));
        const double left = look.px(66);
        const double right = width() - keyWidth(m_key) - look.px(30);
        paintText(painter, QRectF(left, look.px(17), right - left, look.px(26)), m_title, title,
                  look.color(Token::Ink));
        painter.setFont(look.font(Type::Control));
        painter.setPen(look.color(Token::Ink2));
        painter.drawText(QRectF(left, look.px(43), right - left, look.px(36)), Qt::TextWordWrap, m_words);
        paintKey(painter, QPointF(width() - keyWidth(m_key) - look.px(20), look.px(20)), m_key);
        if (hasFocus()) paintFocusFrame(painter, QRectF(rect()).adjusted(4, 4, -4, -4), look);
    }

  private:
    QString m_icon, m_title, m_words, m_key;
};

} // namespace

FirstRunPage::FirstRunPage(QWidget* parent)
    : QWidget(parent),
      m_left(new QWidget(this)),
      m_title(new QLabel(tr("An empty book."), m_left)),
      m_invite(new QLabel(tr("Write a line the way you would say it, and the numbers start on the right."),
                          m_left)),
      m_problem(new QLabel(m_left)),
      m_begin(new QLabel(tr("or begin with"), m_left)),
      m_safe(new QLabel(tr("Everything stays on this computer, in one file you can copy. Saved as you type."),
                        m_left)),
      m_line(new QLineEdit(m_left)) {
    m_line->setAccessibleName(tr("First line, as you would say it"));
    m_line->setPlaceholderText(tr("45 ml gin, ¾ oz lemon, a barspoon of honey"));
    m_invite->setWordWrap(true);
    m_problem->setWordWrap(true);
    m_problem->hide();
    auto* layout = new QVBoxLayout(m_left);
    layout->addWidget(m_title);
    layout->addWidget(m_invite);
    layout->addWidget(m_line);
    layout->addWidget(m_problem);
    layout->addWidget(m_begin);
    const auto door = [&](const QString& iconName, const QString& title, const QString& words,
                          const QKeySequence& key, auto signal) {
        auto* button = addDoor(iconName, title, words, key);
        connect(button, &QPushButton::clicked, this, signal);
        layout->addWidget(button);
    };
    door(QStringLiteral("larder"), tr("Look around a finished book"),
         tr("Nine Lights: nine drinks, their parts, some quarrels. Yours to break; it is a copy."),
         QKeySequence(Qt::CTRL | Qt::Key_1), &FirstRunPage::sampleAsked);
    door(QStringLiteral("card"), tr("Paste an old spec"),
         tr("From a notebook, a page or a message. You see how each line is read before it is kept."),
         Actions::info(Act::PasteSpec).keys.front(), &FirstRunPage::pasteAsked);
    door(QStringLiteral("preparation"), tr("Make a part first"),
         tr("A syrup, an infusion or a cordial, drafted and kept like a drink."),
         QKeySequence(Qt::CTRL | Qt::Key_2), &FirstRunPage::preparationAsked);
    door(QStringLiteral("menu"), tr("Open a book"), tr("A .stillroom file."),
         Actions::info(Act::OpenBook).keys.front(), &FirstRunPage::openAsked);
    layout->addWidget(m_safe);
    layout->addStretch(1);
    connect(m_line, &QLineEdit::returnPressed, this, [this] {
        if (!m_line->text().trimmed().isEmpty()) Q_EMIT lineWritten(m_line->text());
    });
    connect(m_line, &QLineEdit::textEdited, this, [this] { setProblem({}); });
    // These two keys belong to this page alone; the other doors share theirs with the menu.
    for (const auto& [key, index] : {std::pair(Qt::Key_1, 0), std::pair(Qt::Key_2, 2)}) {
        auto* shortcut = new QShortcut(QKeySequence(Qt::CTRL | key), this, nullptr, nullptr,
                                       Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, m_doors[static_cast<std::size_t>(index)],
                &QPushButton::click);
    }
    setFocusProxy(m_line);
    dress();
}

QPushButton* FirstRunPage::addDoor(const QString& iconName, const QString& title, const QString& words,
                                   const QKeySequence& key) {
    auto* button = new Door(iconName, title, words, key.toString(QKeySequence::NativeText), m_left);
    m_doors.push_back(button);
    return button;
}

void FirstRunPage::setSampleOffered(bool offered) {
    m_doors.front()->setVisible(offered);
}

void FirstRunPage::setProblem(const QString& text) {
    m_problem->setText(text);
    m_problem->setVisible(!text.isEmpty());
}

void FirstRunPage::dress() {
    const auto& theme = Theme::current();
    m_left->layout()->setContentsMargins(theme.pxInt(40), theme.pxInt(30), theme.pxInt(40), theme.pxInt(12));
    m_left->layout()->setSpacing(theme.pxInt(8));
    QFont title = theme.font(Type::Title);
    title.setPixelSize(theme.pxInt(29));
    m_title->setFont(title);
    QFont invite = theme.font(Type::Line);
    invite.setPixelSize(theme.pxInt(17));
    m_invite->setFont(invite);
    QFont line = theme.font(Type::Line);
    line.setPixelSize(theme.pxInt(18));
    m_line->setFont(line);
    m_line->setFixedHeight(theme.pxInt(44));
    m_begin->setFont(theme.font(Type::Heading));
    m_safe->setFont(theme.font(Type::Control));
    m_problem->setFont(theme.font(Type::Control));
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    for (auto* label : {m_invite, m_begin, m_safe})
        label->setPalette(quiet);
    QPalette gap = palette();
    gap.setColor(QPalette::WindowText, theme.color(Token::Gap));
    m_problem->setPalette(gap);
}

void FirstRunPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    const int left = std::min(Theme::current().pxInt(590), width());
    m_left->setGeometry(0, 0, left, height());
}

// The instruments before there is anything to read: outlines, and a sentence each on what will be there.
void FirstRunPage::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Look& look = Theme::current().look();
    painter.fillRect(rect(), look.color(Token::Page));
    const double left = m_left->width();
    if (width() - left < look.px(320)) return;
    painter.fillRect(QRectF(left, 0, 1, height()), look.color(Token::Rule));
    double x = left + look.px(40);
    painter.setPen(look.pen(Token::RuleStrong, 1.2, Qt::DashLine));
    for (const char* stage : {QT_TR_NOOP("measured"), QT_TR_NOOP("mixed"), QT_TR_NOOP("served")}) {
        const QRectF box(x, look.px(30), look.px(36), look.px(44));
        painter.setPen(look.pen(Token::RuleStrong, 1.2, Qt::DashLine));
        painter.drawRect(box);
        paintText(painter,
                  QRectF(box.center().x() - look.px(45), box.bottom() + look.px(6), look.px(90), look.px(16)),
                  tr(stage), look.font(Type::Control), look.color(Token::Ink2), Qt::AlignHCenter);
        x += look.px(92);
    }
    const double text = left + look.px(24);
    const double measure = std::min<double>(width() - text - look.px(24), look.px(480));
    const auto say = [&](double top, const QString& words) {
        painter.setFont(look.font(Type::Control));
        painter.setPen(look.color(Token::Ink2));
        painter.drawText(QRectF(text, top, measure, look.px(60)), Qt::TextWordWrap, words);
    };
    say(look.px(108), tr("Volume, strength, sugar, acid and cost appear here as you type: as measured, after "
                         "the ice, and in the glass."));
    painter.fillRect(QRectF(text, look.px(156), measure, 1), look.color(Token::Rule));
    const QRectF glass(text + look.px(30), look.px(190), look.px(150), look.px(150));
    painter.setPen(look.pen(Token::GlassLine, 1.2, Qt::DashLine));
    painter.drawPolyline(QPolygonF({glass.topLeft(), QPointF(glass.left() + look.px(12), glass.bottom()),
                                    QPointF(glass.right() - look.px(12), glass.bottom()), glass.topRight()}));
    painter.drawRect(QRectF(text + look.px(240), look.px(190), std::min(look.px(220), measure - look.px(240)),
                            look.px(150)));
    say(look.px(356),
        tr("On the left the glass, to scale, once you name one. On the right a map of sugar and acid: your "
           "drink lands on it, and a hatched field shows where drinks of its style usually sit."));
    painter.fillRect(QRectF(text, look.px(416), measure, 1), look.color(Token::Rule));
    paintText(painter, QRectF(text, look.px(428), measure, look.px(18)), tr("Two things to know"),
              look.font(Type::Heading), look.color(Token::Ink));
    say(look.px(448),
        tr("%1 keeps a revision and asks why. A dotted underline with ≥ means a fact is missing, never zero.")
            .arg(Actions::keyText(Act::Keep)));
}

void FirstRunPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui

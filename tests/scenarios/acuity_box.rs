//! x
#[test]
fn show() {
    use arcminute_web::model::{answer::Answer, draft::Draft, field::FieldId};
    for text in ["20/200-2","6/60","0,1","0.1","CF 1m","1,250","-",""," ","0","NLP","20/0","1.0 logMAR","twenty","20/200 maybe", &"9".repeat(10_240), &"x/".repeat(5000)] {
        let mut d = Draft::default(); d.person.right.acuity = text.into();
        let a = Answer::of(&d);
        println!("{:?} => {:?}", &text[..text.len().min(20)], a.field(FieldId::Acuity(true)));
        println!("   {:?} {:?}", a.right.log_mar().map(|l| l.log()), a.undecided);
    }
}
